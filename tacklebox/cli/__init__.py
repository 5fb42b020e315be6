"""The command line: parse, call, show; no arithmetic and no SQL."""
