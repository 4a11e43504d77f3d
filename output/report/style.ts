/**
 * The page's style: the field book's paper and inks on a screen, white on paper. Sizes in points, so that the page on
 * the screen is the page that prints (7 pt in print for the screen's 13 px). Inks: the tokens of the look.
 */
export const STYLE = `
:root{--paper:#FBF6EA;--leaf:#F1E9D6;--rule:#DCD2BC;--line:#857A66;--ink:#14110C;--ink-2:#3F382D;--ink-3:#5E5546;
--sea:#0A4660;--caution:#7A4100;--caution-plate:#F2B134;--danger:#9E150C;--on-danger:#FBF6EA;
--face:"Atkinson Hyperlegible Next","Atkinson Hyperlegible Next Variable","STIX Two Text",sans-serif;
--face-title:"STIX Two Text","STIX Two Text Variable",serif}
*{box-sizing:border-box;margin:0;padding:0}
html{background:var(--leaf);color:var(--ink);font:400 9pt/1.4 var(--face);font-variant-numeric:tabular-nums;
-webkit-print-color-adjust:exact;print-color-adjust:exact}
body{width:210mm;max-width:100%;margin:0 auto;padding:16mm;background:var(--paper)}
a{color:inherit}
h1{font:600 24pt/1.1 var(--face-title)}
h2{font:600 14pt/1.2 var(--face-title);margin-top:30pt;padding-top:7pt;border-top:1.1pt solid var(--ink);break-after:avoid}
h3{font:600 9pt/1.3 var(--face);margin:13pt 0 3pt;break-after:avoid}
p+p{margin-top:5pt}
.mark{height:1em;width:1em;vertical-align:-.13em;flex:none}
.q{color:var(--ink-2)} .u{color:var(--ink-3)} .nb{white-space:nowrap}
.assumed{border-bottom:.9pt dashed var(--ink)}
.formula{font:italic 400 10.5pt/1.5 var(--face-title);margin:4pt 0 4pt 12pt}
.lede{max-width:150mm}

.top{border-bottom:2.2pt solid var(--ink);padding-bottom:9pt}
.top .name{display:flex;justify-content:space-between;font:600 10pt/1.3 var(--face-title);margin-bottom:12pt}
.top .name span:last-child{font:400 7.5pt/1.7 var(--face);color:var(--ink-3)}
.top .sub{margin-top:6pt;color:var(--ink-2);max-width:150mm}
.contents{margin-top:8pt;font-size:7.5pt;color:var(--ink-2);display:flex;flex-wrap:wrap;gap:2pt 12pt}
.contents a{text-decoration:none;border-bottom:.5pt solid var(--line)}
.once{margin-top:7pt;font-size:8pt;color:var(--ink-2)}

.beside{display:grid;grid-template-columns:minmax(0,1.25fr) minmax(0,1fr);column-gap:11mm;margin-top:9pt}
.beside>section>h2{border:0;margin:0;padding:0}
.answer{margin:9pt 0 0}
.answer .label{font-weight:600}
.answer .number{display:flex;align-items:baseline;font-weight:600;font-size:30pt;line-height:1.12;letter-spacing:-.01em}
.answer .number .pm{margin-left:8pt;letter-spacing:0}
.answer .number .u{font-size:10pt;font-weight:400;margin-left:5pt;letter-spacing:0}
.pm{font-weight:300;color:var(--ink-2)}

table{border-collapse:collapse;width:100%;margin-top:6pt;font-size:8pt;line-height:1.3}
table:has(caption){margin-top:13pt}
caption{caption-side:top;text-align:left;font-weight:600;font-size:9pt;padding-bottom:3pt;break-after:avoid}
th{font-weight:400;color:var(--ink-3);text-align:left;vertical-align:bottom;font-size:7.5pt;padding:0 7pt 2pt 0;line-height:1.25}
td{vertical-align:baseline;padding:2.6pt 7pt 2.2pt 0;border-top:.5pt solid var(--rule)}
thead{display:table-header-group} thead+tbody>tr:first-child>td{border-top:.9pt solid var(--ink)}
.grouped tbody,.whole,tr{break-inside:avoid} .q{break-after:avoid}
td:last-child,th:last-child{padding-right:0}
.n{text-align:right;white-space:nowrap} .n.wraps{white-space:normal} td.n:has(+td.pm){padding-right:3pt}
td.pm{white-space:nowrap;width:1%}
td.id{font-weight:600;white-space:nowrap}
tr.more td{border-top:0;padding-top:0}
.rejected td,.rejected td.pm{color:var(--ink-2)} .rejected td.id{text-decoration:line-through;font-weight:400}
.account td:nth-child(5){width:62%}

.parts{display:flex;align-items:baseline;gap:8pt;padding-bottom:2pt}
.budget{display:flex;flex:none;width:42mm;height:4.5pt;border:.65pt solid var(--ink)}
.budget i{display:block} .budget i:nth-child(odd){background:var(--ink)}
.parts p{font-size:7.5pt;color:var(--ink-2)} .parts b{font-weight:400;color:var(--ink)} .parts p>span{white-space:nowrap}

.problems{list-style:none;margin-top:7pt}
.problems li{border-top:.5pt solid var(--rule);padding:4pt 0;font-size:8pt;line-height:1.35;break-inside:avoid}
.problems .head{display:flex;gap:4pt;align-items:center;font-weight:600;overflow-wrap:anywhere}
.problems .plate{padding:1.5pt 5pt;margin-bottom:2pt}
.problems .danger .plate{background:var(--danger);color:var(--on-danger)}
.problems .error .head,.problems .warning .head{color:var(--caution)}
.problems q{quotes:"“" "”"} .problems div{overflow-wrap:anywhere}

figure{margin-top:11pt;break-inside:avoid}
figure svg{display:block;max-width:100%;height:auto;max-height:232mm}
figcaption{font:400 8.5pt/1.35 var(--face-title);margin-top:4pt;max-width:165mm}
figcaption b{font-weight:600}
.two-up{display:grid;grid-template-columns:repeat(2,minmax(0,1fr));column-gap:8mm}

.cautions{list-style:none;margin-top:7pt}
.cautions li{display:flex;gap:5pt;padding:3.5pt 0;border-top:.5pt solid var(--rule);break-inside:avoid}
.cautions .mark{margin-top:1.5pt;color:var(--caution)}
.cautions .danger,.cautions .danger .mark{color:var(--danger)}
.methods p{max-width:160mm} .sources{list-style:none;font-size:8pt;margin-top:5pt}
.sources li{padding-left:12pt;text-indent:-12pt;margin-top:2pt;break-inside:avoid}
.hash{overflow-wrap:anywhere}
.not-converged{color:var(--caution);font-weight:600}
.doubt{color:var(--caution)}

a.from{text-decoration:underline dotted .6pt var(--line);text-underline-offset:2.5pt}
.where .node{display:none}
.where .node:target{display:block;position:fixed;inset:auto 0 0 0;max-height:46vh;overflow:auto;padding:10pt 16mm 14pt;
background:var(--leaf);border-top:1.6pt solid var(--ink);overflow-wrap:anywhere}
.where ul{list-style:none;margin-top:5pt;max-width:170mm} .where li{border-top:.5pt solid var(--rule);padding:3pt 0}
.where li a{display:inline-block;padding:2pt 0} .where .close{float:right;padding:6pt 9pt;margin:-4pt -9pt 0 9pt}

@page{size:A4;margin:15mm 16mm 17mm;
@bottom-left{content:"Stillstand";font:600 8pt "STIX Two Text",serif;color:#5E5546}
@bottom-right{content:counter(page) " of " counter(pages);font:400 8pt "Atkinson Hyperlegible Next",sans-serif;color:#5E5546}}
@media print{:root{--paper:#FFFFFF;--leaf:#FFFFFF} html{background:none} body{width:auto;padding:0;margin:0}
.contents a{border:0} .where,.screen{display:none} a.from{text-decoration:none} h2{margin-top:22pt} p{orphans:3;widows:3}}
@media screen{.contents a{display:inline-block;min-height:24px;line-height:24px}}
@media (max-width:600px){body{padding:12px} .beside,.two-up{display:block} table{display:block;overflow-x:auto}}
`;
