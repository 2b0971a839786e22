"""Write down the JSON Schemas that the sample jobs name, so that editors complete and check them.

Run with: python tests/sample_jobs/write_schemas.py
"""

from test_schemas import SCHEMAS, written

if __name__ == "__main__":
    SCHEMAS.mkdir(exist_ok=True)
    for what in ("job", "unit"):
        (SCHEMAS / f"{what}.json").write_text(written(what), encoding="utf-8")
