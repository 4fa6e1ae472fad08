// Steps ticked, and a card marked done: not with a step open that applies, and not with a plug missing.
const Ticks = (() => {
  "use strict"

  const marks = desk => Store.marks(desk.job ? desk.job.id : "", desk.id)
  const save = (desk, what) => Store.saveMarks(desk.job ? desk.job.id : "", desk.id, what)

  function step(desk, place) {
    const id = place.id.replace(/^step-/, "")
    const number = place.querySelector(".step > .number").textContent
    const input = h("input", { type: "checkbox", "aria-label": `Tick step ${number}`, onchange: () => {
      const now = marks(desk)
      const ticks = now.ticks.filter(one => one !== id)
      save(desk, { ...now, ticks: input.checked ? [...ticks, id] : ticks, done: "" })
      desk.refresh()
    } })
    place.querySelector(".step > .box").replaceWith(h("label", { class: "box cut tick" }, input, h("span", { "aria-hidden": "true" })))
    desk.watch(() => {
      input.checked = marks(desk).ticks.includes(id)
      place.classList.toggle("not-now", Boolean(desk.job) && !applies(desk, id))
    })
  }

  function applies(desk, id) {
    const tree = desk.scope.card.steps[id]
    const there = tree ? desk.scope.cell(tree, {}) : Cells.known(true)
    return there.state !== "none" && there.value !== false
  }

  function done(desk, steps) {
    const say = h("p", { role: "status" })
    const button = h("button", { type: "button", class: "main-button", onclick: () => {
      if (open(desk, steps).length) return
      const now = marks(desk)
      save(desk, { ...now, done: now.done ? "" : Desk.today() })
      desk.refresh()
    } })
    desk.watch(() => {
      const left = open(desk, steps)
      const on = marks(desk).done
      button.textContent = on ? "Take the mark away" : "Mark card done"
      button.setAttribute("aria-disabled", String(left.length > 0))
      say.textContent = on ? `Done on ${on}.` : left.length ? `Not yet: ${left.join("; ")}.` : "All steps are ticked."
    })
    return h("div", { class: "part start done" }, h("div", {}, button, say))
  }

  // What keeps the card from being done, in words.
  function open(desk, steps) {
    const now = marks(desk)
    const left = steps.filter(id => !now.ticks.includes(id) && applies(desk, id)).length
    return [...(left ? [`${left} step${left > 1 ? "s" : ""} not ticked`] : []), ...Tally.missing(desk)]
  }

  return { step, done }
})()
