"""Write down what the sample jobs give now; read the difference before keeping it.

Run with: python tests/sample_jobs/write_expected.py
"""

import tomli_w
from test_expected_findings import EXPECTED, JOBS, findings_by_verdict

if __name__ == "__main__":
    EXPECTED.mkdir(exist_ok=True)
    for job in JOBS:
        text = tomli_w.dumps(findings_by_verdict(job))
        (EXPECTED / job.name).write_text(text, encoding="utf-8")
