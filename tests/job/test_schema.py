import subprocess
import sys
from collections.abc import Iterator

from tundish.job.facts import flatten
from tundish.job.job import Job
from tundish.job.model.schema import Entry, Fact, Items, Record
from tundish.job.named_file import FILES
from tundish.job.schema import job_schema
from tundish.units.dimension import DIMENSIONS, LEVEL
from tundish.units.quantity import parse_quantity


def entries(record: Record) -> Iterator[Entry]:
    for entry in record.fields.values():
        yield entry
        if isinstance(entry, Record):
            yield from entries(entry)
        elif isinstance(entry, Items):
            yield from entries(entry.item)


ALL = tuple(entries(job_schema()))
FACTS = tuple(job_schema().facts())


def test_every_fact_has_a_question_and_a_label() -> None:
    for entry in ALL:
        assert entry.question.endswith(("?", ".")), entry.path
        assert entry.label and entry.label[0] == entry.label.strip()[0], entry.path


def test_every_fact_of_the_installation_says_how_to_find_it() -> None:
    assert [fact.path for fact in FACTS if not fact.how] == []


def test_paths_are_distinct_and_lead_to_their_entry() -> None:
    assert len({entry.path for entry in ALL}) == len(ALL)
    for entry in ALL:
        assert job_schema().find(entry.path) is entry


def test_every_example_of_a_quantity_has_its_dimension() -> None:
    for fact in FACTS:
        if fact.kind == "quantity":
            example = parse_quantity(fact.example)
            assert example.dimension == fact.dimension, fact.path
            if fact.dimension != LEVEL:  # levels and their differences are written alike
                assert example.unit.point == fact.point, fact.path


def test_every_dimension_has_a_name_in_the_trade() -> None:
    named = set(DIMENSIONS.values())
    assert [f.path for f in FACTS if f.kind == "quantity" and f.dimension not in named] == []


def _outside_lists(fact: Fact) -> bool:
    steps = fact.path.split(".")
    around = [".".join(steps[:depth]) for depth in range(1, len(steps))]
    return not any(isinstance(job_schema().find(path), Items) for path in around)


def _is_measure_of_pipe(fact: Fact) -> bool:
    outer = job_schema().find(fact.path.rpartition(".")[0])
    return isinstance(outer, Record) and {"outside_diameter", "wall"} <= set(outer.fields)


PLAIN = [
    fact
    for fact in FACTS
    if _outside_lists(fact)
    and fact.path not in (*FILES, "job.region")
    and not _is_measure_of_pipe(fact)
]


def test_every_fact_can_be_stated_by_its_example() -> None:
    assert len(PLAIN) > 400
    for fact in PLAIN:
        assert fact.path in flatten(Job.from_data({fact.path: fact.example_as_data})).values


def test_find_passes_over_list_positions() -> None:
    rating = job_schema().find("electricity.circuit[2].device.rating")
    assert isinstance(rating, Fact)
    assert rating.dimension == DIMENSIONS["current"] and rating.label == "device rating"


def test_find_knows_nothing_of_what_is_not_there() -> None:
    assert job_schema().find("site.nothing") is None
    assert job_schema().find("site.altitude.more") is None


def test_what_can_be_absent_says_so() -> None:
    vessel, site = job_schema().find("water.volume_vessel"), job_schema().find("site")
    assert isinstance(vessel, Record) and vessel.can_be_absent
    assert isinstance(site, Record) and not site.can_be_absent


def test_a_temperature_is_a_point_and_a_difference_is_not() -> None:
    flow = job_schema().find("water.flow_temperature")
    difference = job_schema().find("water.temperature_difference")
    assert isinstance(flow, Fact) and flow.point
    assert isinstance(difference, Fact) and not difference.point


def test_choices_stand_in_the_order_of_their_own_fact() -> None:
    # Two facts with the same words in another order were once given the order of the first.
    expected = {
        "water.filling.source": ("mains", "softened", "demineralised", "rain", "well"),
        "maintenance.coil_rinse.water": ("mains", "demineralised", "rain", "softened", "well"),
    }
    for path, choices in expected.items():
        fact = job_schema().find(path)
        assert isinstance(fact, Fact)
        assert fact.choices == choices


def test_the_schema_loads_neither_a_builder_of_models_nor_a_syntax_tree() -> None:
    program = (
        "import sys; from tundish.job.schema import job_schema; job_schema(); "
        "assert not {'pydantic', 'tree_sitter'} & set(sys.modules)"
    )
    subprocess.run([sys.executable, "-c", program], check=True)
