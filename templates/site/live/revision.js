// A printed card's code leads here with its revision: whether it is current, and what changed since.
const Revision = (() => {
  "use strict"

  function make(card) {
    const printed = new URLSearchParams(location.hash.slice(1)).get("r")
    if (!printed || !/^[0-9A-Z]{1,12}$/.test(printed)) return null
    const current = card.dataset.revision
    if (printed === current) {
      return h("p", { class: "printed", role: "status" }, "Your printed card ", h("b", {}, printed), " is current.")
    }
    const changes = h("div", {})
    tell(card, printed, changes)
    return h("section", { class: "printed", "aria-label": "Printed card" },
      h("p", { role: "status" }, "Your printed card ", h("b", {}, printed), " is superseded: this is ", h("b", {}, current), ". Take it off the wall."), changes)
  }

  async function tell(card, printed, place) {
    const said = await Data.get(`${card.dataset.family}/${card.dataset.card}.said`)
    await Data.seldom()
    const old = (said.printed || {})[printed]
    if (!old) return place.replaceChildren(h("p", {}, "What it said was not noted when it was printed."))
    place.replaceChildren(h("h2", {}, "What changed since"), Differences.make(old, said.lines, "the printed card", "this card"))
  }

  return { make }
})()
