"""The bounds on input: the worst that an untrusted file can bring about is a refusal.

All bounds are here, are quoted in the README, and are tested at the bound and one past it.
"""

LARGEST_FILE = 4 * 1024 * 1024
"""Bytes in one job, sheet, rule or table file."""

MOST_VALUES = 100_000
"""Keys, and entries of lists, in one file, those inside others counted: a list of ten thousand
items with nine facts each, or the rows of the largest table."""

LONGEST_NAME = 200
"""Characters in one key of a file."""

LONGEST_LIST = 10_000
"""Items in one list of a job."""

MOST_BASES = 4
"""Jobs that one job may be based on, each based on the next."""

LONGEST_EXPRESSION = 4_000
"""Characters in one condition or formula."""

MOST_TOKENS = 1_000
"""Words, numbers and signs in one condition or formula."""

DEEPEST_NESTING = 32
"""Levels of brackets, calls and operators inside each other in one expression."""

LONGEST_QUANTITY = 64
"""Characters in one quantity, or in one unit."""

LONGEST_CHAIN = 100
"""Terms in a row, joined by + and - or by * and /."""

DEEPEST_TREE = 150
"""Parts inside each other once an expression is read, a term in a row counting as one; those of
the quantities it is computed from count too."""

DEEPEST_LOOPS = 2
"""Loops (all, any, sum, count, least, greatest) inside each other, each counted once."""

MOST_STEPS = 10_000_000
"""Steps in loops that one rule may take, and one quantity of the whole job: a step is about what it
takes to look at a fact or to add two figures. Past them it stays undecided."""

MOST_STEPS_OF_ALL = 100_000_000
"""Steps in loops that all rules of an assessment may take together, in equal shares; some ten
seconds."""

MOST_FINDINGS_OF_ITEMS = 20_000
"""Findings on items of lists in one assessment; where there would be more, a rule that takes more
than its equal share of them stays undecided."""

GREATEST_COUNT = 10**9
"""The greatest whole number that a count can be."""

MOST_COMPLETIONS = 64
"""Completions of a job that are looked at for one undecided rule."""

MOST_COMPLETION_STEPS = 3_000_000
"""Steps in which all undecided rules of one job are looked at again."""

MOST_EXPLAINED_STEPS = 100_000
"""Steps that are kept to explain one rule; past them it is judged all the same."""

MOST_EXPLAINED_STEPS_OF_ALL = 3_000_000
"""Steps that all findings of a job may take to be explained, in equal shares; each takes a hundred
times as long as one that is only judged."""

MOST_EXPLAINED_FINDINGS = 10_000
"""Findings on items of lists that are explained; of a job with more, those on the first items."""

MOST_TRIED_STEPS = 100_000_000
"""Steps that looking for changes that mend a job may take, some five seconds; the worst breaches
come first, and past them no change is offered."""

MOST_CACHED_STEPS = 300_000
"""Steps of quantities kept while a job is explained, some 100 MiB; past them they are computed
again."""

MOST_PROBLEMS = 200
"""Problems of one file that are listed one by one; the rest are counted."""

LONGEST_TEXT = 2_000
"""Most characters of one free text."""

LONGEST_DEPENDENCE = 64
"""Quantities that may be computed one from the other in a row."""

CHUNK_ROWS = 8192
"""Rows of a table of jobs that are held in memory and judged at a time, by each process."""

MOST_REGIONS = 300
"""Regions that one rule may name; ISO 3166-1 has about 250."""

LARGEST_RESULT = 64 * 1024 * 1024
"""Bytes in one file of findings; those of a whole job with all workings take about 4 MiB."""

MOST_PACKS = 300
"""Packs read together, those of single countries counted: there are some 250 countries."""

MOST_FILES = 20_000
"""Files, of rules or not, in the folders of all packs together."""

LARGEST_RULEBOOK = 8 * 1024 * 1024
"""Bytes in the rule files of all packs together; the built-in pack holds a quarter of it."""

MOST_RULES = 12_000
"""Rules, quantities and parts in all packs together, ten times those of the built-in pack."""

MOST_PARTS = 150_000
"""Facts, figures and operators in all conditions and formulas of all packs together, ten times
those of the built-in pack: reading and compiling them is what takes time."""

PARTS_AT_ONCE = 15_000
"""Facts, figures and operators in conditions that are compiled into one function, several times
those of the built-in pack: what compiling takes of memory grows with them."""

MOST_CITATIONS = 12
"""Places in sources that one rule, quantity, part or table cites."""

MOST_ADJUSTED = 12
"""Facts that mending one rule may change."""

MOST_ROWS = 10_000
"""Rows of one table."""

MOST_KEYS = 6
"""Columns that one table is entered by: read linearly, each doubles the rows that are read."""

MOST_COLUMNS = 1_000
"""Columns that one table gives, or that a table of jobs has."""
