"""The book on the desk: search, clients, orders, cupboard, safe keeping."""
