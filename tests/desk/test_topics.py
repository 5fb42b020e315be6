"""What there is to read: every key of a recipe is explained, and each text is whole."""

import pytest

from tacklebox.desk import topics
from tacklebox.errors import AskedWronglyError
from tacklebox.rigs.recipes import file


def test_each_subject_has_a_title_and_text() -> None:
    found = topics.listed()
    assert [one.topic for one in found] == [
        "corrections",
        "matches",
        "papers",
        "recipes",
        "reels",
        "settling",
        "sources",
        "tackle",
        "times",
        "tray",
    ]
    assert all(one.title and one.paragraphs for one in found)


def test_every_key_of_a_recipe_is_explained() -> None:
    text = " ".join(topics.topic("recipes").paragraphs)
    models = (
        file.Recipe,
        file.Choice,
        file.ChainPart,
        file.AlongPart,
        file.WrittenBranch,
        file.ShotGroup,
    )
    keys = {f.alias or name for model in models for name, f in model.model_fields.items()}
    missing = [key for key in keys if key not in text]
    assert missing == []


def test_a_subject_that_is_not_there_offers_the_nearest() -> None:
    with pytest.raises(AskedWronglyError, match='Did you mean "recipes"') as refused:
        topics.topic("recipe")
    assert refused.value.field == "topic"
