"""Between browser and desk: who may come in, the reader's language, pages, faults, the log."""
