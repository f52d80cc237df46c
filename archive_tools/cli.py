"""The commands. Each turns its arguments into one call of the pipeline, prints, and leaves with a code.

Results go to standard output, messages to standard error. Codes: 0 fine, 1 problems in the collection or a refused
publication, 2 wrong use, 3 a fault of the machine.
"""

from __future__ import annotations

import sys

import click

from archive_tools import __version__
from archive_tools.cli_options import MACHINE_FAULT, say
from archive_tools.commands.check import check
from archive_tools.commands.chronology import chronology
from archive_tools.commands.compare import compare
from archive_tools.commands.export import export
from archive_tools.commands.labels import labels
from archive_tools.commands.lineage import lineage
from archive_tools.commands.new import new
from archive_tools.commands.prune_cache import prune_cache
from archive_tools.commands.research import research
from archive_tools.commands.show import show
from archive_tools.commands.site import build, serve
from archive_tools.commands.sort_in import sort_in
from archive_tools.commands.steward import steward
from archive_tools.commands.talk import talk
from archive_tools.commands.tour import tour


def main() -> None:
    """The entry point: runs a command and turns a fault of the machine into code 3 instead of a traceback."""
    try:
        cli(standalone_mode=True)
    except OSError as fault:
        where = f" ({fault.filename})" if fault.filename else ""
        say(f"The machine would not: {fault.strerror or fault}{where}")
        sys.exit(MACHINE_FAULT)


@click.group(context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(__version__, prog_name="archive-tools")
def cli() -> None:
    """The living archive of a collection of trained trees.

    Turns per-tree folders of dated photographs and notes into an honest public record: a site in two editions, with
    every age a range and every end of it proved.
    """


for command in (
    check, build, serve, show, chronology, lineage, steward, export, compare, research, new, sort_in, labels,
    tour, talk,
    prune_cache,
):  # fmt: skip
    cli.add_command(command)
