"""The bounds of what is read: a file from a stranger can at worst be refused.

All of them stand here, are quoted in the README and are tested at the bound and one past it.
"""

LARGEST_FILE = 4 * 1024 * 1024
"""Bytes in one job, sheet, rule or table file."""

LONGEST_LIST = 10_000
"""Items in one list of a job."""

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

MOST_STEPS = 1_000_000
"""Loop rounds that one rule may take, through all its quantities, before it is given up."""

MOST_EXPLAINED_STEPS = 100_000
"""Loop rounds that are kept to explain one rule; past them it is judged all the same."""

MOST_PROBLEMS = 200
"""Most problems of one file that are told one by one; the rest are counted."""

LONGEST_TEXT = 2_000
"""Most characters of one free text."""

LONGEST_DEPENDENCE = 64
"""Quantities that may be computed one from the other in a row."""

CHUNK_ROWS = 8192
"""Rows of a table of jobs that are held in memory and judged at a time, by each process."""

MOST_REGIONS = 300
"""Regions that one rule may name; ISO 3166-1 has about 250."""

MOST_FILES = 20_000
"""TOML files of one pack of rules."""

LARGEST_PACK = 64 * 1024 * 1024
"""Bytes in all files of one pack together."""

MOST_COLUMNS = 2_000
"""Columns of one table of jobs."""

LARGEST_RESULT = 64 * 1024 * 1024
"""Bytes in one file of findings; those of a whole job with all workings take about 4 MiB."""
