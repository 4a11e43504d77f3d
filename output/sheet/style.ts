/**
 * One A4 page, for a copier and a pencil: sizes in points, the inks of the look. Lists are cut by `LIMITS` of the sheet so
 * that a full day still fits.
 */
export const STYLE = `
:root{--paper:#FFFFFF;--rule:#DCD2BC;--line:#857A66;--ink:#14110C;--ink-2:#3F382D;--caution:#7A4100;--danger:#9E150C;
--face:"Atkinson Hyperlegible Next","Atkinson Hyperlegible Next Variable",sans-serif;
--face-title:"STIX Two Text","STIX Two Text Variable",serif}
*{box-sizing:border-box;margin:0;padding:0}
html{background:var(--paper);color:var(--ink);font:400 9pt/1.34 var(--face);font-variant-numeric:tabular-nums}
body{width:210mm;max-width:100%;margin:0 auto;padding:12mm;background:var(--paper)}
header{display:flex;justify-content:space-between;align-items:baseline;gap:8mm;border-bottom:2.2pt solid var(--ink);padding-bottom:3pt}
h1{font:600 19pt/1.1 var(--face-title)}
header p{text-align:right;color:var(--ink-2)}
.people{display:grid;grid-template-columns:1fr 1fr;gap:1pt 8mm;margin:4pt 0}
.people b{font-weight:600}
.totals{display:flex;gap:10mm;margin:3pt 0 2pt}
.totals p{font-size:7.5pt;color:var(--ink-2)}
.totals b{display:block;font:600 15pt/1.15 var(--face);color:var(--ink)}
h2{font:600 10pt/1.2 var(--face);margin-top:6pt;padding-top:2pt;border-top:.9pt solid var(--ink)}
.two{display:grid;grid-template-columns:1fr 1fr;column-gap:8mm;align-items:start}
table{border-collapse:collapse;width:100%}
th{font-weight:400;font-size:7.5pt;color:var(--ink-2);text-align:left;padding:1pt 5pt 1pt 0}
td{border-top:.5pt solid var(--rule);padding:1.6pt 5pt 1.4pt 0;vertical-align:baseline}
td.id{font-weight:600}
.n{text-align:right;white-space:nowrap}
ul{list-style:none}
li{border-top:.5pt solid var(--rule);padding:1.6pt 0 1.4pt;overflow-wrap:anywhere}
li b{font-weight:600}
.danger{color:var(--danger);font-weight:600}
.caution{color:var(--caution)}
.quiet{color:var(--ink-2)}
.plan{min-height:26pt}
.sign td{height:26pt;width:33%;border-top:0;border-bottom:.6pt solid var(--line)}
.full{font-size:7.5pt;line-height:1.25} .full .plan{min-height:20pt}
.foot{margin-top:5pt;font-size:7pt;color:var(--ink-2)}
@page{size:A4;margin:12mm;@bottom-left{content:""}}
@media print{body{width:auto;padding:0;margin:0}}
@media (max-width:600px){body{padding:12px} .two,.people{grid-template-columns:1fr} table{display:block;overflow-x:auto} th.n{white-space:normal} th,td{padding-right:3pt}}
`;
