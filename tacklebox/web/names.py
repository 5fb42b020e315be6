"""What venues, matches and recipes are called, by the names of their files that answers have."""

from collections.abc import Mapping

from tacklebox.web.showing import Shown


def venue_names(shown: Shown) -> Mapping[str, str]:
    """Each venue of the box by its file's name."""
    from tacklebox.desk import venues

    return {one.venue: one.name for one in shown.ask(venues.listed, shown.desk).venues}


def match_names(shown: Shown) -> Mapping[str, str]:
    """Each match of the box by its file's name."""
    from tacklebox.desk import matches

    return {one.match: one.name for one in shown.ask(matches.listed, shown.desk).matches}


def recipe_names(shown: Shown) -> Mapping[str, str]:
    """Each recipe by its file's name."""
    from tacklebox.desk import recipes

    return {one.recipe: one.name for one in shown.ask(recipes.listed, shown.desk).recipes}
