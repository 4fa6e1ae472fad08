// Millimetres or inches, remembered: where a figure has the wanted unit in brackets, the two change places.
const Units = (() => {
  "use strict"

  const LENGTHS = ["mm", "in"]
  const wanted = () => Store.get("length", "")

  // "(3.874 in)" beside the figure "98.40" with its unit.
  function swap(also, length) {
    const figure = also.previousElementSibling
    const unit = figure && figure.querySelector(".unit")
    const [, number, other] = /^\((.*?)\s(mm|in)\)$/.exec(also.textContent) || []
    if (!unit || other !== length || !LENGTHS.includes(unit.textContent.trim())) return
    const texts = [...figure.childNodes].filter(node => node.nodeType === Node.TEXT_NODE && node.data.trim())
    if (texts.length !== 1) return
    also.textContent = `(${texts[0].data.trim()}\u00a0${unit.textContent.trim()})`
    texts[0].data = (/^\s/.exec(texts[0].data) || [""])[0] + number
    unit.textContent = `\u00a0${length}`
  }

  function inLine(run, length) {
    if (!run.dataset.also.endsWith(length)) return
    const here = run.textContent
    run.textContent = run.dataset.also
    run.dataset.also = here
  }

  function set(length) {
    document.querySelectorAll(".also").forEach(also => swap(also, length))
    document.querySelectorAll("[data-also]").forEach(run => inLine(run, length))
  }

  // `changed` is told of a change.
  function make(changed) {
    const here = [...document.querySelectorAll(".unit")].map(unit => unit.textContent.trim())
    const buttons = [["mm", "mm", "Set to mm"], ["in", "inch", "Set to inch"]].map(([length, words, label]) => {
      const press = () => {
        Store.set("length", length)
        set(length)
        mark()
        changed()
      }
      return h("button", { type: "button", "aria-label": label, value: length, onclick: press }, words)
    })
    const mark = () => {
      const now = wanted() || here.find(unit => LENGTHS.includes(unit)) || "mm"
      buttons.forEach(button => button.setAttribute("aria-pressed", String(button.value === now)))
    }
    if (wanted()) set(wanted())
    mark()
    return h("div", { class: "units", role: "group", "aria-label": "Units" }, buttons)
  }

  return { make, wanted }
})()
