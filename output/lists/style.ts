/** A4 on its side, for a copier and a pencil: sizes in points, the inks of the look. */
export const STYLE = `
:root{--paper:#FFFFFF;--rule:#DCD2BC;--line:#857A66;--ink:#14110C;--ink-2:#3F382D;--caution:#7A4100;
--face:"Atkinson Hyperlegible Next","Atkinson Hyperlegible Next Variable",sans-serif;
--face-title:"STIX Two Text","STIX Two Text Variable",serif}
*{box-sizing:border-box;margin:0;padding:0}
html{background:var(--paper);color:var(--ink);font:400 9pt/1.3 var(--face);font-variant-numeric:tabular-nums}
body{width:297mm;max-width:100%;margin:0 auto;padding:10mm;background:var(--paper)}
h1{font:600 18pt/1.1 var(--face-title);border-bottom:2.2pt solid var(--ink);padding-bottom:3pt}
.head{display:flex;flex-wrap:wrap;gap:1pt 8mm;margin:4pt 0}
.head b{font-weight:600}
.note{font-size:8pt;color:var(--ink-2)}
table{border-collapse:collapse;width:100%;margin-top:4pt}
thead{display:table-header-group}
tr{break-inside:avoid}
th{font-weight:400;font-size:7.5pt;color:var(--ink-2);text-align:left;vertical-align:bottom;padding:2pt 5pt 2pt 0;border-bottom:.9pt solid var(--ink)}
td{border-bottom:.5pt solid var(--rule);padding:3pt 5pt 3pt 0;vertical-align:top;overflow-wrap:anywhere}
td p:first-child{font-weight:600}
td p+p{font-size:8pt;color:var(--ink-2)}
td.code{width:16mm} td.code svg{display:block}
td p.fill{min-width:20mm;min-height:15pt;font-weight:400;font-size:7.5pt;color:var(--ink-2);border-bottom:.6pt solid var(--line)}
.n{text-align:right;white-space:nowrap} .day{white-space:nowrap}
@page{size:A4 landscape;margin:10mm;@bottom-right{content:counter(page) " / " counter(pages)}}
@media print{body{width:auto;padding:0;margin:0}}
@media (max-width:600px){body{padding:12px} table{display:block;overflow-x:auto}}
`;
