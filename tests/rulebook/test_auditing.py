"""What lies idle in a rulebook is told, and rules at odds are found."""

import datetime
from pathlib import Path

from rulebook.packs import QUANTITY, RULE, TABLE, load
from tundish.rulebook.prove.audit import audit
from tundish.rulebook.prove.contradictions import contradictions
from tundish.rulebook.rulebook import Rulebook

DAY = datetime.date(2026, 11, 26)


def told(book: Rulebook, older_than: datetime.timedelta | None = None) -> set[tuple[str, str]]:
    return {(one.about, one.name) for one in audit(book, DAY, older_than) if one.about != "fact"}


def test_what_nothing_uses_or_cites_is_told(tmp_path: Path) -> None:
    files = {"snow/base.toml": RULE, "snow/quantities.toml": QUANTITY, "tables/t.toml": TABLE}
    found = told(load(tmp_path, files))
    assert found == {("quantity", "spare_height"), ("table", "t")}


def test_old_reviews_are_told_on_request(tmp_path: Path) -> None:
    book = load(tmp_path, {"snow/base.toml": RULE})
    assert ("rule", "snow/base") not in told(book, datetime.timedelta(days=2))
    assert ("rule", "snow/base") in told(book, datetime.timedelta(hours=12))


def test_facts_that_no_rule_reads_are_told(tmp_path: Path) -> None:
    unread = {one.name for one in audit(load(tmp_path, {"snow/base.toml": RULE}), DAY)}
    assert "site.altitude" in unread
    assert "site.snow_depth" not in unread


def test_a_gap_in_a_table_is_told(tmp_path: Path) -> None:
    rows = [[one, other] for one in ("a", "b") for other in ("x", "y", "z")][:-1]
    cells = ", ".join(f'["{one}", "{other}", 1]' for one, other in rows)
    table = (
        TABLE.partition("keys")[0]
        + 'keys = [{ name = "one" }, { name = "other" }]\ngives = [{ name = "n", unit = "1" }]\n'
        + f'cite = [{{ source = "code" }}]\nreviewed = 2026-11-25\nrows = [{cells}]\n'
    )
    book = load(tmp_path, {"snow/base.toml": RULE, "tables/t.toml": table})
    sentences = [one.sentence for one in audit(book, DAY) if one.name == "t"]
    assert "It has no row for 'b', 'z'." in sentences


def rule(requires: str, met: str, breached: str) -> str:
    head = RULE.partition("[[case]]")[0]
    head = head.replace("placement.height_below >= site.snow_depth", requires)
    head = head.replace("cite ", 'adjust = "placement.height_below"\ncite ')
    return head + "".join(
        f'[[case]]\nwhy = "x"\ngiven = {{ "placement.height_below" = "{height}" }}\n'
        f'outcome = "{outcome}"\n'
        for height, outcome in ((met, "met"), (breached, "breached"))
    )


def test_rules_at_odds_are_found(tmp_path: Path) -> None:
    files = {
        "snow/high.toml": rule("placement.height_below >= 300 mm", "300 mm", "200 mm"),
        "snow/low.toml": rule("placement.height_below <= 250 mm", "250 mm", "300 mm"),
        "snow/mild.toml": rule("placement.height_below >= 100 mm", "100 mm", "90 mm"),
    }
    found = [(clash.rule, clash.other) for clash in contradictions(load(tmp_path, files))]
    assert found == [("snow/high", "snow/low")]
