"""The layout of a label in the markup's own code: its lines, its columns, and the trial that measures them.

`labels` defines the lengths and the parts of each label round it. All heights and sizes follow from `b`, the size of
the running text.
"""

LAYOUT = """\
#set par(linebreaks: "optimized")
#set text(costs: (runt: 400%, hyphenation: 100%, widow: 100%, orphan: 100%))
#let name-line(b, body) = block(below: b * 0.95, above: 0pt)[
  #show heading: set block(above: 0pt, below: 0pt)
  #set par(leading: 0.28em)
  // A name a little too long for its line is set a little smaller; one that is much too long takes two lines.
  #context {
    let whole = measure(text(size: b * 2, weight: name-weight, body)).width
    let size = if whole > main-width { calc.max(b * 1.55, b * 1.98 * (main-width / whole)) } else { b * 2 }
    show heading: set text(size: size, weight: name-weight)
    heading(level: 1, outlined: true, body)
  }]
#let taxon-line(b, body) = block(above: 0pt, below: b * 0.68)[#set text(size: b * 1.15); #body]
#let common-line(b, body) = block(above: 0pt, below: b * 0.85)[#set text(size: b, fill: soft-ink); #body]
#let age-line(b, body) = block(above: 0pt, below: b * 1.0)[#set text(size: b, fill: accent-ink); #body]
#let credit-line(b, body) = block(above: 0pt, below: 0pt)[
  #set text(size: calc.max(small, b * 0.72), fill: soft-ink)
  #sans(body)]
#let other-name(b, body) = block(above: 0pt, below: b * 0.95)[#set text(size: b * 1.5); #body]
#let other-common(b, body) = block(above: 0pt, below: b * 1.0)[#set text(size: b, fill: soft-ink); #body]
#let other-text(b, body) = block(above: 0pt, below: 0pt)[#set text(size: b); #set par(leading: 0.62em); #body]
#let foot(b, code, number) = block(width: code-width, above: 0pt, below: 0pt)[
  #code
  #block(above: 0.5mm, below: 0pt, width: 100%)[#set text(size: small, fill: soft-ink); #align(center, sans(number))]]
// The text, cut after `count` words for the trial; no wider than a line may be long.
#let running(w, count) = said(w.language)[#w.units.slice(0, count).join(w.between)]
#let column(b, w) = {
  if w.between == "" or w.units.len() < 4 { return main-width }
  let whole = measure(text(size: b, running(w, w.units.len()))).width
  calc.min(main-width, whole / w.units.join(w.between).clusters().len() * line-length)
}
#let body-of(b, w, count) = block(above: 0pt, below: 0pt, width: column(b, w))[#set text(size: b); #running(w, count)]
#let over-height(b, main, w, count) = measure(block(width: main-width)[#main(b) #body-of(b, w, count)]).height
#let credit-height(b, credit) = measure(block(width: credit-width, credit(b))).height
#let side-height(b, side) = {
  let s = side(b)
  let over = measure(block(width: side-width, s.over)).height
  let under = measure(block(width: side-width, s.under)).height
  over + under + if over > 0pt { 3mm } else { 0pt }
}
#let fits-at(b, main, side, w, credit, count) = {
  let below = credit-height(b, credit)
  let gap = if below > 0pt { b * 0.8 } else { 0pt }
  if upright {
    let s = side(b)
    let over = measure(block(width: side-width, s.over)).height
    let foot-height = calc.max(below, measure(s.under).height)
    let apart = if over > 0pt { b * 1.7 } else { 0pt }
    return over-height(b, main, w, count) + over + apart + foot-height + b <= inner-height
  }
  over-height(b, main, w, count) + below + gap <= inner-height and side-height(b, side) <= inner-height
}
#let label-of(b, main, side, w, credit) = block(width: label-width, height: label-height,
  inset: (left: pad + band, right: pad, top: pad, bottom: pad), context {
  let s = side(b)
  if upright {
    // One column, the second language below the first, and a foot with the credit and the code.
    let over = measure(block(width: side-width, s.over)).height
    block(height: inner-height, width: main-width)[
      #main(b) #body-of(b, w, w.units.len())
      #if over > 0pt { v(b * 1.7, weak: false); s.over }
      #v(1fr)
      #grid(columns: (credit-width, code-width), column-gutter: gutter, align: (left + bottom, right + bottom),
        credit(b), s.under)]
    return
  }
  grid(columns: (main-width, side-width), column-gutter: gutter, rows: (inner-height,),
    block(height: inner-height)[#main(b) #body-of(b, w, w.units.len()) #v(1fr) #credit(b)],
    block(height: inner-height, width: side-width)[#s.over #v(1fr) #align(right, s.under)])
})
"""

TRIALS = """\
#let trial(main, side, w, credit) = {
  let all = w.units.len()
  let best = sizes.find(b => fits-at(b, main, side, w, credit, all))
  let room = all
  if best == none {
    // The most words that fit at the smallest size, by halving.
    let low = -1
    let high = all
    while high - low > 1 {
      let mid = calc.quo(low + high, 2)
      if fits-at(least, main, side, w, credit, mid) { low = mid } else { high = mid }
    }
    room = low
  }
  let b = if best == none { least } else { best }
  let letters = w.units.join(w.between).clusters().len()
  let whole = measure(text(size: b, running(w, all))).width
  let line = if letters == 0 or whole == 0pt { 0 } else { letters * (column(b, w) / whole) }
  (size: if best == none { none } else { best / 1pt }, room: room, line: line)
}
"""
