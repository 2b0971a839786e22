"""The Common Expression Language, which two engines speak."""

from __future__ import annotations

from engines.infix import Dialect

DIALECT = Dialect(
    choice="({0} ? {1} : {2})",
    loops={
        "any": "{items}.exists({variable}, {term})",
        "all": "{items}.all({variable}, {term})",
        "count": "double(size({items}.filter({variable}, {term})))",
        "each": "{items}.map({variable}, {term})",
    },
    filtered="{items}.filter({variable}, {test})",
    length="double(size({items}))",
    words=("&&", "||", "!", "null", "true", "false"),
)
