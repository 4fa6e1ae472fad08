// A printed card's code leads here with its revision: whether it is current, and what changed since. What the ledger
// knows is fetched only where the two are not the same: { printed: { code: { on, changes: [text or [what, was, now]] } } }.
const Revision = (() => {
  "use strict"

  // Shows it at the head of the card, and again where another code is followed on the page that is open already.
  function show(card, head) {
    const renew = () => {
      head.querySelectorAll(":scope > .printed").forEach(old => old.remove())
      const told = make(card)
      if (told) head.prepend(told)
    }
    window.addEventListener("hashchange", renew)
    renew()
  }

  function make(card) {
    const printed = new URLSearchParams(location.hash.slice(1)).get("r")
    if (!printed || !/^[0-9A-Z]{1,12}$/.test(printed)) return null
    const said = h("p", { role: "status" })
    const changes = h("div", {})
    if (printed === card.dataset.revision) said.append("Your printed card ", h("b", {}, printed), " is ", h("b", {}, "current"), ".")
    else tell(card, printed, said, changes)
    return h("section", { class: "printed", "aria-label": "Printed card" }, said, changes)
  }

  async function tell(card, printed, said, changes) {
    const current = h("b", {}, card.dataset.revision)
    const name = `${card.dataset.family}/${card.dataset.card}.said`
    const known = await Data.get(name).then(found => found.printed || {}, () => ({}))
    const old = known[printed]
    if (!old) {
      said.append("This page says ", current, ". It does not know your printed card ", h("b", {}, printed), ": no print of it was noted, or this is an older copy of the page.")
      return changes.append(h("p", {}, "Make sure which is newer before you work by either."))
    }
    said.append("Your printed card ", h("b", {}, printed), old.on && ` of ${old.on}`, " is ", h("b", {}, "superseded"), ": this is ", current, ". Take it off the wall.")
    if (!old.changes) return changes.append(h("p", {}, "What it said was not noted, so nobody can say what changed since."))
    changes.append(h("h2", {}, "What changed since"), h("ol", { class: "differences" }, old.changes.map(entry)))
  }

  function entry(change) {
    if (typeof change === "string") return h("li", {}, change)
    const [what, was, now] = change
    return h("li", {}, h("p", { class: "at" }, what),
      h("dl", {}, h("dt", {}, "Was"), h("dd", {}, was), h("dt", {}, "Is now"), h("dd", {}, now)))
  }

  return { show }
})()
