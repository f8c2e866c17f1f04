"""The look of the report: the course's own colours, and rules for paper."""

from splashlib.picture.kit.style import BODY, FAINT, INK, PAPER, QUIET, WATER

STYLE = f"""
:root {{ color-scheme: light; }}
body {{ margin: 0; background: {PAPER}; color: {INK}; font: 16px/1.5 system-ui, sans-serif; }}
main {{ max-width: 76rem; margin: 0 auto; padding: 2rem 1.5rem 4rem; }}
h1 {{ font-size: 1.9rem; margin: 0 0 .3rem; }}
h2 {{ font-size: 1.25rem; margin: 2.4rem 0 .6rem; border-bottom: 3px solid {WATER}; padding-bottom: .2rem; }}
.lead {{ font-size: 1.1rem; margin: 0; }}
.quiet {{ color: #535d63; margin: .2rem 0 .6rem; }}
.note {{ border-left: 5px solid {BODY}; background: #fff; padding: .4rem 1rem; margin: 1rem 0; }}
.wide {{ overflow-x: auto; }}
table {{ border-collapse: collapse; background: #fff; width: 100%; }}
caption {{ text-align: left; font-weight: 600; padding: .3rem 0; color: #535d63; }}
th, td {{ text-align: left; vertical-align: top; padding: .35rem .6rem; border: 1px solid {FAINT}; }}
thead th {{ background: #ece9df; vertical-align: bottom; }}
td {{ font-variant-numeric: tabular-nums; overflow-wrap: anywhere; }}
td p {{ margin: 0 0 .3rem; }}
code {{ background: #f1efe7; padding: 0 .25rem; border-radius: 3px; }}
.grid td {{ white-space: nowrap; text-align: center; overflow-wrap: normal; }}
.grid tbody tr:last-child > * {{ font-weight: 700; border-top: 3px solid {QUIET}; }}
.right {{ background: #d5efe6; }}
.tried {{ background: #fdf0d2; }}
.slips th[scope=row] {{ min-width: 7rem; }}
.slips td:nth-child(3) {{ min-width: 10rem; }}
.slips td:nth-child(5) {{ min-width: 24rem; }}
.bar {{ display: block; height: .5rem; margin-top: .3rem; background: {WATER}; }}
summary {{ cursor: pointer; padding: .4rem 0; color: #535d63; }}
@media print {{
  @page {{ size: A4 landscape; margin: 12mm; }}
  body {{ background: none; font-size: 8pt; line-height: 1.25; }}
  main {{ max-width: none; padding: 0; }}
  h1 {{ font-size: 14pt; }}
  h2 {{ font-size: 11pt; margin: .8rem 0 .2rem; border-width: 1px; }}
  .lead {{ font-size: 9pt; }}
  caption, .folded, details:not([open]) {{ display: none; }}
  .folded:has(details[open]) {{ display: block; }}
  th, td {{ padding: .1rem .4rem; }}
  section > .quiet, .bar {{ display: none; }}
  .slips td p {{ display: inline; margin: 0; }}
  .slips td:nth-child(3) {{ min-width: 0; white-space: nowrap; }}
  .slips td:nth-child(5) {{ width: 55%; }}
  .wide {{ overflow: visible; }}
  .slips td:nth-child(5) {{ min-width: 0; }}
  h2 {{ break-after: avoid; }}
  thead {{ display: table-header-group; }}
  tr {{ break-inside: avoid; }}
  .right, .tried, .bar, thead th {{ print-color-adjust: exact; -webkit-print-color-adjust: exact; }}
}}
"""
