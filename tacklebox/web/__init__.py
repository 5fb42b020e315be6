"""The bench in a browser: pages of the desk's answers, served on this machine alone."""
