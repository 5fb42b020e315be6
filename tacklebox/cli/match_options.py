"""Arguments and options that the commands on matches share."""

from pathlib import Path
from typing import Annotated

import typer

MatchArg = Annotated[str, typer.Argument(metavar="MATCH", help="A match's name.")]
Page = Annotated[str, typer.Option(help='"a4" or "a5".')]
Replace = Annotated[bool, typer.Option("--replace", help="Write over older files.")]
Csv = Annotated[Path | None, typer.Option("--csv", help="Write the shopping list to this CSV.")]
