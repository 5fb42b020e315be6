"""The trade's knowledge as pure functions and tables: no database, no files, no printing."""
