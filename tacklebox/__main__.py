"""``python -m tacklebox`` does what the command ``tacklebox`` does."""

from tacklebox.cli.main import run

if __name__ == "__main__":
    run()
