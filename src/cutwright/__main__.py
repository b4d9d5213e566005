"""`python -m cutwright` is the command line."""

from cutwright.cli import main

main()
