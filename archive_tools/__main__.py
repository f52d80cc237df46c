"""`python -m archive_tools` is the same as the `archive-tools` command."""

from archive_tools.cli import main

if __name__ == "__main__":
    main()
