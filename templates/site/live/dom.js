// Elements by hand: h("p", { class: "x", onclick: f }, "words", other). Text is text, never markup.
const h = (() => {
  "use strict"

  const SVG = ["svg", "line", "path", "circle", "rect", "title"]

  return function h(tag, attributes = {}, ...children) {
    const made = SVG.includes(tag) ? document.createElementNS("http://www.w3.org/2000/svg", tag) : document.createElement(tag)
    for (const [name, value] of Object.entries(attributes)) {
      if (name.startsWith("on")) made.addEventListener(name.slice(2), value)
      else if (value === true) made.setAttribute(name, "")
      else if (value !== false && value !== null && value !== undefined) made.setAttribute(name, value)
    }
    const there = children.flat().filter(child => (child ?? false) !== false)
    // Apostrophes as typeset.py sets them, without looking behind, which not every browser can.
    made.append(...there.map(child => child.trim ? child.replace(/(\w)'(?=\w)|(s)'(?=\s|$)/g, "$1$2’") : child))
    return made
  }
})()
