"""Findings in other forms: HTML, Markdown, SARIF, JUnit, JSON, CSV."""
