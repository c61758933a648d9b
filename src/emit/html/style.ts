/** How the page looks: dark on white, one column on a phone, a picture a page on paper. */
export const STYLE = `
:root{color-scheme:light}
*{box-sizing:border-box}
body{margin:0;background:#fff;color:#111;font:1.0625rem/1.55 Georgia,'Times New Roman',serif;overflow-wrap:anywhere}
header,main,footer{width:min(48rem,100% - 2rem);margin:0 auto}
header{padding-top:1.5rem;border-bottom:2px solid #111}
h1{font-size:clamp(1.7rem,5vw,2.6rem);line-height:1.15;margin:.2em 0 .3em}
h2{font-size:1.5rem;line-height:1.2;margin:2.2em 0 .5em;padding-top:.6em;border-top:1px solid #111}
header h2{font-size:1.2rem;margin:1.2em 0 .4em;padding:0;border:0}
main>.edition:first-child>h2{margin-top:.4em;border-top:0}
h3{font-size:1.2rem;line-height:1.25;margin:1.8em 0 .4em}
h4{font-size:1.0625rem;margin:1.2em 0 .2em}
h4+ul{margin-top:.2em}
p,ul,ol,blockquote{margin:.6em 0}
li{margin:.15em 0}
li>p{margin:.2em 0}
.notes,.differences{max-width:40rem}
.group{font-style:italic;margin:0}
a{color:#003a8c;text-underline-offset:.15em}
a:focus-visible,[tabindex]:focus-visible{outline:3px solid #003a8c;outline-offset:2px}
.skip{position:absolute;left:-999px}
.skip:focus{left:1rem;top:.5rem;background:#fff;padding:.5rem}
nav ul,.files{list-style:none;padding:0}
nav a,.files a{display:inline-block;padding:.5rem 0}
nav li,.files li{display:inline-block;margin:0 1.6rem 0 0}
.files .booklet{display:block}
.files .booklet{font-weight:bold}
figure{margin:.8rem 0 1.6rem}
figure svg{display:block;width:100%;height:auto;border:1px solid #767676}
figcaption{font-size:.95rem;color:#333;margin-top:.35rem}
footer{margin-top:3rem;padding-top:.8rem;padding-bottom:2rem;border-top:1px solid #111;font-size:.95rem;color:#333}
.turn{display:none}
@media (max-width:36rem) and (orientation:portrait){.turn{display:block;font-style:italic}}
@media print{
@page{margin:15mm 13mm}
nav,.skip,.files,.turn{display:none!important}
header,main,footer{width:auto}
h2,h3{break-after:avoid}
.part{break-inside:avoid}
.edition+.edition{break-before:page}
figure{break-inside:avoid;margin:0 0 4mm}
figure+figure{break-before:page}
figure svg{border:0;width:auto;max-width:100%;max-height:230mm;margin:0 auto}
a{color:inherit;text-decoration:none}
}
`;
