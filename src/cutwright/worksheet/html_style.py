"""The style sheet of the HTML work sheet: one column on a phone, plain black on white in print."""

STYLE = """
.worksheet{max-width:52rem;margin:0 auto;padding:1rem;font:1rem/1.45 'Noto Sans',system-ui,sans-serif;
color:#2b2926;overflow-wrap:break-word}
html{background:#f7f1e3}
.large .worksheet{font-size:1.4rem}
.worksheet h1{font-size:1.9em;line-height:1.15;margin:.4em 0 .1em}
.worksheet .subtitle{margin:0 0 1em;color:#5c564b}
.worksheet h2{font-size:1.35em;margin:1.8em 0 .5em;border-bottom:2px solid #2b2926;padding-bottom:.15em}
.worksheet h3{font-size:.95em;margin:1.6em 0 .1em;color:#8c2a22}
.worksheet p{margin:.3em 0}
.worksheet .sentence{font-weight:700;font-size:1.08em;margin:.1em 0 .6em}
.worksheet .sum{padding-left:1em;text-indent:-.7em;font-variant-numeric:tabular-nums}
.worksheet .sum::before{content:'· '}
.worksheet .note{color:#5c564b;font-size:.92em}
.worksheet .caution{padding-left:1.4em;text-indent:-1.1em}
.worksheet .caution::before{content:'!';font-weight:700;color:#a3352b;display:inline-block;width:1.1em;text-indent:0}
.worksheet .task{padding-left:2.2em;position:relative;margin:.55em 0}
.worksheet .look{padding-left:3em;text-indent:-.7em;margin:.15em 0}
.worksheet .look::before{content:'· '}
.worksheet .facts{color:#5c564b}
.worksheet .task span{position:absolute;left:0;font-weight:700}
.worksheet nav ul{display:flex;flex-wrap:wrap;gap:.2em 1em;list-style:none;padding:0;margin:0;font-size:.92em}
.worksheet nav a{color:#2f5b93;display:inline-block;padding:.35em 0}
.worksheet .pictures{display:flex;align-items:center;justify-content:center;gap:.6em;margin:.6em 0;flex-wrap:wrap}
.worksheet figure{margin:0;flex:0 1 auto;width:min(100%,calc(var(--wide)*1.25cm))}
.worksheet figure svg,.worksheet .thumb svg{display:block;width:100%;height:auto}
.worksheet figure svg{overflow:visible}
.worksheet figcaption{text-align:center;font-size:.85em;color:#5c564b;margin-top:.3em}
.worksheet .arrow{font-size:1.8em}
.worksheet .beside{display:flex;flex-wrap:wrap;gap:0 1.5em;align-items:flex-start}
.worksheet .beside>.pictures{flex:0 1 auto}.worksheet .beside>div:last-child{flex:1 1 18em;min-width:0}
.worksheet .row{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,19em),1fr));gap:0 1.5em;align-items:start}
.worksheet td:has(.thumb)~td{min-width:4.8em}
.worksheet .thumb{display:block;width:calc(var(--wide)*1cm)}
.worksheet .table{overflow-x:auto;margin:.5em 0}
.worksheet table{border-collapse:collapse;width:100%;font-size:.92em}
.worksheet th,.worksheet td{text-align:left;vertical-align:top;padding:.25em .6em .25em 0;border-bottom:1px solid #cfc6b3}
.worksheet th,.worksheet thead td{border-bottom:2px solid #2b2926;font-size:.93em}
.worksheet .number{text-align:right;white-space:nowrap;font-variant-numeric:tabular-nums}
.worksheet .lines div{border-bottom:1px solid #a69d8b;height:2.2em}
.worksheet .exercise{line-height:2.3;padding-left:.3em}
.worksheet .blank{display:inline-block;min-width:4.5em;border-bottom:1.5px solid #2b2926;height:1.1em;margin:0 .2em}
.worksheet .exercise input{font:inherit;width:5.5em;max-width:30vw;padding:.2em .3em;margin:0 .2em;border:1px solid #5c564b;
border-radius:3px;background:#fffdf7;color:inherit}
.worksheet .exercise input[data-right=yes]{border-color:#2f6b3e;background:#e8f2e6}
.worksheet .exercise input[data-right=no]{border-color:#a3352b;background:#f8e6e2}
@media (max-width:40rem){.worksheet .pictures{flex-direction:column}.worksheet .arrow{transform:rotate(90deg);line-height:1}}
@media print{html{background:#fff}.worksheet{max-width:none;padding:0;font-size:9.5pt}.large .worksheet{font-size:14pt}
.worksheet nav{display:none}.worksheet .pictures,.worksheet .sentence,.worksheet tr{break-inside:avoid}.worksheet .row{grid-template-columns:1fr 1fr}.worksheet .beside{display:block;break-inside:auto}.worksheet .note{break-inside:avoid;break-after:avoid}
.worksheet .sentence,.worksheet .pictures{break-after:avoid}
.worksheet h2,.worksheet h3{break-after:avoid}.worksheet .table{overflow:visible}
.worksheet .pictures{flex-direction:row;flex-wrap:nowrap}.worksheet .arrow{transform:none}}
@page{margin:1.6cm}
""".strip()
