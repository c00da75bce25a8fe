#include "weeks_page_style.hpp"

#include "page_part.hpp"

namespace compline::report {

std::string weeks_page_style() {
    return std::string(page_style()) + R"css(.evenings text, .form text { font-size: 24px; }
.small text { font-size: 40px; }
.evening { fill: var(--early); stroke: var(--paper); stroke-width: 1.5; }
.course { fill: none; stroke: var(--late); stroke-width: 5; }
.hollow { fill: none; stroke: var(--soft); stroke-width: 2; }
.weeks .sentence { font-size: clamp(1.4rem, 3.4vw, 2rem); }
.how { color: var(--soft); }
ul { margin: .4rem 0 0; padding-left: 1.2rem; }
.staff { display: grid; grid-template-columns: 1fr; }
.staff [stroke="#000"] { stroke: var(--ink); }
.shelf { display: flex; flex-wrap: wrap; gap: .8rem 1.2rem; }
.shelf > div { width: 7.2rem; text-align: center; }
.shelf p { font-weight: 600; }
.days { display: flex; flex-wrap: wrap; gap: .6rem 2.5rem; margin-top: .5rem; font-size: 1.2rem; }
.tick { display: inline-block; width: 1.6rem; height: 1.6rem; border: 2px solid var(--ink);
  vertical-align: -.35rem; margin-right: .6rem; }
@media (max-width: 43.9rem) {
.evenings text, .form text { font-size: 40px; }
}
@media (min-width: 44rem) {
.staff { grid-template-columns: 1fr 1fr; }
}
@media screen and (min-width: 60rem) {
.all { display: grid; grid-template-columns: 1fr 1fr; gap: 0 2.5rem; align-items: start; }
.all header { grid-column: 1 / -1; }
.all .evenings text { font-size: 36px; }
}
@media print {
.weeks .sentence { font-size: 12pt; }
.weeks .trend, .weeks .weakest, .sheet section { grid-column: 1 / -1; }
.weeks .evenings text, .weeks .form text { font-size: 26px; }
.weeks .trend .evenings { max-width: 125mm; }
.weeks .form { max-height: 24mm; }
.weeks .pairs { grid-template-columns: 1fr 1fr 1fr; }
.weeks .how { font-size: 8pt; line-height: 1.15; }
.all .trend { grid-column: auto; }
.all .trend .evenings { max-width: 70mm; }
.all .evenings text { font-size: 30px; }
.staff { grid-template-columns: 1fr 1fr; }
.shelf > div { width: 26mm; }
.shelf .grip { max-height: none; }
.sheet h1 { font-size: 12pt; }
.sheet h2 { font-size: 12pt; margin-top: 3mm; }
.sheet p { font-size: 11pt; }
.sheet .sentence { font-size: 18pt; }
.sheet pre { font-size: 11pt; }
.sheet .shelf p { font-size: 9.5pt; white-space: nowrap; }
}
)css";
}

}  // namespace compline::report
