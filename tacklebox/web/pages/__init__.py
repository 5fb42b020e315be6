"""The pages, one file per subject: ask the desk, show its answer."""
