"""What `pillarside report` may be asked for together; the rest is refused, not passed over."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from typing import Any

import click
from click.core import ParameterSource

SPANS = "pillarside.spans"  # where the flags that were given are kept


def span_options(helps: Mapping[str, str]) -> Callable[[Any], Any]:
    """A flag for each span; `asked_span` tells which was given."""

    def add(command: Any) -> Any:
        for name in reversed(helps):
            kept = partial(_keep, name)
            flag = {"is_flag": True, "expose_value": False, "callback": kept}
            command = click.option(f"--{name}", help=helps[name], **flag)(command)
        return command

    return add


def _keep(name: str, context: click.Context, option: click.Parameter, given: bool) -> None:
    if given:
        context.meta.setdefault(SPANS, []).append(name)


def asked_span() -> str:
    """The span that was asked for, empty if none; refuses several."""
    asked = click.get_current_context().meta.get(SPANS, [])
    if len(asked) > 1:
        raise click.UsageError(f"name one span: {' or '.join(f'--{name}' for name in asked)}")
    return asked[0] if asked else ""


def one_source(downloads: bool, collected: str, site: str) -> None:
    """Refuses what would not be looked at."""
    if downloads and collected:
        raise click.UsageError("name folders of downloads or --collected, not both")
    if site and not collected:
        raise click.UsageError(
            "--site goes with --collected only; of folders, name those of that school"
        )
    source = click.get_current_context().get_parameter_source("record")
    if (downloads or collected) and source is ParameterSource.COMMANDLINE:
        raise click.UsageError("name --record, folders of downloads or --collected: one of them")
