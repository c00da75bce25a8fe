#include "page_part.hpp"

namespace compline::report {

// Vermilion and blue, which no kind of colour blindness takes for one another (Okabe and Ito, from
// memory), darker by day and lighter by night; shades of one hue where more and less are told
// apart. On paper as by day.
const char* page_style() {
    return R"css(:root { --paper: #fff; --ink: #1b1b1d; --soft: #595e66; --band: #dfe4ea; --rule: #a9b0b8;
  --late: #b8450c; --early: #0b5fa5; }
@media screen and (prefers-color-scheme: dark) {
:root { --paper: #14171b; --ink: #f2f2ef; --soft: #b3bac2; --band: #2a323b; --rule: #66707a;
  --late: #ff9a4d; --early: #74bbff; color-scheme: dark; }
}
* { box-sizing: border-box; }
body { margin: 0; background: var(--paper); color: var(--ink); line-height: 1.35;
  font-family: system-ui, "Segoe UI", Roboto, "Helvetica Neue", Arial, "Liberation Sans", sans-serif; }
main { max-width: 62rem; margin: 0 auto; padding: 1rem; }
h1, h2, p, figure { margin: 0; overflow-wrap: anywhere; }
h1 { font-size: 1.2rem; font-weight: 600; color: var(--soft); }
h2 { font-size: 1.35rem; margin: 1.6rem 0 .5rem; }
.sentence { font-size: clamp(1.7rem, 4.6vw, 2.7rem); font-weight: 700; line-height: 1.15; margin: .3rem 0 .6rem; }
.facts, figcaption, summary, .two p { color: var(--soft); }
pre { margin: .4rem 0 0; padding: .6rem .8rem; background: var(--band); border-radius: .3rem;
  white-space: pre-wrap; overflow-wrap: anywhere; font-size: 1.15rem; }
code span { display: inline-block; max-width: 100%; }
svg { display: block; width: 100%; height: auto; fill: var(--ink); overflow: visible; }
.piece text, .heap text, .tempi text { font-size: 20px; }
.pieces { display: grid; grid-template-columns: 1fr; gap: .8rem 1.2rem; }
.band { fill: var(--band); }
.beat, .ground, .wanted, .barline { fill: none; stroke: var(--rule); stroke-width: 1.5; }
.beat, .ground { stroke: var(--soft); stroke-width: 2; }
.wanted { stroke: var(--ink); stroke-width: 2; stroke-dasharray: 7 5; }
.late, .under { fill: var(--late); }
.early { fill: var(--early); }
.missed, .astray, .left-out, .incomplete { fill: none; stroke: var(--ink); stroke-width: 3.5; }
.left-out { stroke-dasharray: 4 3; }
.wrong { fill: var(--ink); stroke: var(--paper); stroke-width: 1.5; }
.incomplete { fill: var(--paper); stroke-width: 2.5; }
.heap path { fill: var(--soft); }
.heap .band { fill: var(--band); }
.over { fill: var(--rule); }
.number { fill: var(--soft); }
.letter, .ms, .chord { font-weight: 600; }
.ms { paint-order: stroke; stroke: var(--paper); stroke-width: 6px; stroke-linejoin: round; }
.row, .end { text-anchor: end; }
.middle { text-anchor: middle; }
.map text { font-size: 24px; }
.shade0 { fill: var(--band); }
.shade1, .shade2, .shade3, .shade4 { fill: var(--late); fill-opacity: .45; }
.shade2 { fill-opacity: .62; }
.shade3 { fill-opacity: .8; }
.shade4 { fill-opacity: 1; }
figcaption { margin-top: .4rem; }
.key { display: inline-block; margin-right: 1.4rem; }
.sign, .ramp { display: inline-block; width: 1.1rem; vertical-align: -.2rem; margin-right: .4rem; }
.ramp { width: 5.5rem; }
.halves, .pairs { display: grid; grid-template-columns: 1fr; gap: 1.2rem 2.5rem; }
.what { font-weight: 600; margin-bottom: .3rem; }
.two { display: grid; grid-template-columns: 1fr 1fr; gap: 1rem; max-width: 26rem; text-align: center; }
.grip [stroke="#000"] { stroke: var(--ink); }
.grip [fill="#fff"] { fill: var(--paper); }
.grip path { fill: var(--late); }
svg.tempi { max-width: 30rem; }
details { margin-top: .5rem; }
table { border-collapse: collapse; margin-top: .4rem; font-size: .95rem; }
caption { text-align: left; color: var(--soft); }
th, td { text-align: left; vertical-align: top; padding: .15rem .9rem .15rem 0; border-bottom: 1px solid var(--rule); }
tbody th { font-weight: 400; }
@media (max-width: 43.9rem) {
.map text { font-size: 40px; }
}
@media (min-width: 44rem) {
.pieces, .halves, .pairs { grid-template-columns: 1fr 1fr; }
}
@page { margin: 10mm; }
@media print {
html { font-size: 9pt; }
main { display: grid; grid-template-columns: 1fr 1fr; gap: 0 6mm; max-width: none; padding: 0; align-items: start; }
header, .next, .strip { grid-column: 1 / -1; }
h1 { font-size: 10pt; max-height: 2.7em; overflow: hidden; }
.facts { max-height: 4.1em; overflow: hidden; }
h2 { font-size: 10.5pt; margin: 1.5mm 0 .8mm; }
.sentence { font-size: 15pt; margin: .5mm 0 1mm; }
pre { padding: 1mm 2mm; margin-top: 1mm; font-size: 9pt; }
details { display: none; }
section { break-inside: avoid; }
.pieces { grid-template-columns: repeat(var(--on-paper), 1fr); gap: 1.5mm 2.5mm; }
.map svg.map { max-height: 46mm; }
.map text { font-size: 28px; }
.pairs { gap: 1.5mm 4mm; }
.grip { max-height: 18mm; }
.two { gap: 2mm; }
.two p { font-size: 8pt; line-height: 1; }
.what { font-size: 8pt; line-height: 1.15; margin-bottom: .5mm; }
svg.heap, svg.tempi { max-height: 24mm; }
.halves { gap: 0 4mm; }
figcaption { margin-top: 1mm; font-size: 8pt; }
}
)css";
}

}  // namespace compline::report
