"""The style of a page: for a screen of any width, by day and by night, and for A4 paper."""

from __future__ import annotations

STYLE = """
:root {
  color-scheme: light dark;
  --paper: #fbfaf7; --card: #ffffff; --ink: #1f2428; --faint: #5a6269; --rule: #d5d2c9;
  --blank: #e4e1d8; --danger: #a3161f; --fault: #7d2b8b; --caution: #7a5200; --note: #0d5f73;
}
@media (prefers-color-scheme: dark) {
  :root {
    --paper: #15181b; --card: #1d2125; --ink: #e6e4de; --faint: #a4abb1; --rule: #3a4046;
    --blank: #343a40; --danger: #ff8d8d; --fault: #dd9fee; --caution: #ecbd5c; --note: #79cbdc;
  }
}
* { box-sizing: border-box; }
html { background: var(--paper); color: var(--ink); -webkit-text-size-adjust: 100%; }
body { margin: 0 auto; max-width: 54rem; padding: 1.5rem 1rem 3rem;
  font: 1rem/1.5 system-ui, sans-serif; overflow-wrap: anywhere; }
.title { font-size: 1.6rem; line-height: 1.25; margin: 0 0 .25rem; }
.section { font-size: 1rem; letter-spacing: .06em; text-transform: uppercase;
  margin: 2.25rem 0 .75rem; padding-bottom: .25rem; border-bottom: 1px solid var(--rule); }
.found { font-size: 1.05rem; line-height: 1.4; margin: 0 0 .5rem; }
p, ul, dl { margin: .5rem 0; }
ul { padding-left: 1.25rem; }
li { margin: .2rem 0; }
a { color: var(--note); }
.job + .job { margin-top: 3.5rem; padding-top: 1.5rem; border-top: 3px double var(--rule); }
.under, dt { color: var(--faint); }
article { background: var(--card); border: 1px solid var(--rule); border-left-width: .4rem;
  border-radius: .25rem; padding: .9rem 1rem; margin: 0 0 1rem; }
.danger { --tone: var(--danger); } .fault { --tone: var(--fault); }
.caution { --tone: var(--caution); } .note { --tone: var(--note); }
article.danger, article.fault, article.caution, article.note { border-left-color: var(--tone); }
.severity { color: var(--tone, var(--faint)); font-weight: 700; font-size: .85em;
  letter-spacing: .04em; white-space: nowrap; margin-right: .5em; }
.standing { list-style: none; padding-left: 0; }
.entry { display: grid; grid-template-columns: 7rem minmax(0, 1fr); gap: 0 1rem;
  padding: .15rem 0; }
dt { grid-column: 1; font-size: .9em; }
dd { grid-column: 2; margin: 0; }
dd + dd { margin-top: .15rem; }
.recalled { font-style: italic; }
.margin { display: flex; flex-wrap: wrap; align-items: center; gap: .25rem .75rem;
  margin: .25rem 0 .75rem; }
.margin svg { width: 14rem; max-width: 100%; height: .9rem; }
.margin .blank { fill: var(--blank); } .margin .filled { fill: var(--tone, var(--faint)); }
.margin .limit { fill: var(--ink); }
pre { font: .8rem/1.25 ui-monospace, monospace; overflow-x: auto; overflow-wrap: normal;
  margin: .5rem 0; }
@media (max-width: 36rem) {
  body { padding: 1rem .75rem 2rem; }
  .entry { display: block; padding: .3rem 0; }
  dt { font-size: .8em; }
}
@media print {
  @page { size: A4; margin: 16mm 15mm 18mm; }
  :root { color-scheme: light; --paper: #fff; --card: #fff; --ink: #000; --faint: #444;
    --rule: #999; --blank: #ddd; --danger: #a3161f; --fault: #7d2b8b; --caution: #7a5200;
    --note: #0d5f73; }
  body { max-width: none; padding: 0; font-size: 9.5pt; line-height: 1.4; }
  article, .entry, li, .margin, pre { break-inside: avoid; }
  h1, h2, h3, h4 { break-after: avoid; }
  p { orphans: 3; widows: 3; }
  main > * + .job { break-before: page; }
  nav { display: none; }
  pre { font-size: 7.5pt; overflow: visible; }
}
"""
"""It names no colour without a word beside it: severities are told by gauge and word too."""
