// What the readings come to, shown where it stands on the card: values beside their limits, the arm that is taken.
const Arms = (() => {
  "use strict"

  function values(desk, place) {
    for (const row of place.querySelectorAll("tr[data-value]")) {
      const name = row.dataset.value
      const spec = desk.scope.card.values[name]
      if (!spec || spec.show === undefined) continue
      const live = h("p", { class: "now" })
      row.querySelector("td").append(live)
      desk.watch(() => {
        const bound = Object.fromEntries(spec.each.filter(axis => axis in desk.open).map(axis => [axis, desk.open[axis]]))
        const cell = Cells.one(desk.scope.spread(name, bound))
        const who = Object.values(bound).join(" ")
        live.hidden = !desk.job || !Cells.isKnown(cell)
        const said = live.hidden ? "" : Verdicts.figure(cell, spec.show, desk.print, spec.side)
        live.textContent = who && said ? `${who}: ${said}` : said
      })
    }
  }

  function decision(desk, list) {
    const arms = [...list.children]
    const name = list.dataset.decision
    const told = h("p", { class: "told-of", role: "status" })
    list.after(told)
    const heads = arms.map(arm => arm.querySelector(".action"))
    desk.watch(() => {
      const own = desk.verdicts.filter(one => one.decision === name)
      const open = desk.openVerdicts().find(one => one.decision === name)
      const taken = desk.job && open && (open.state === "clear" || open.state === "decided by a person") ? open.outcomes[0][0] : null
      const at = arms.findIndex(arm => arm.dataset.arm === taken)
      arms.forEach((arm, place) => {
        arm.classList.toggle("taken", place === at)
        arm.classList.toggle("before", at >= 0 && place < at)
        arm.classList.toggle("beyond", at >= 0 && place > at)
        const said = heads[place].querySelector(".unseen")
        if (said) said.remove()
        if (place === at) heads[place].prepend(h("span", { class: "unseen" }, "Taken: "))
      })
      const others = own.filter(one => one.member && desk.job && one.state !== "wanting" && one.state !== "not yet known")
      const left = own.length - others.length
      const said = others.map(one => `${one.member}: ${outcome(one)}`)
      told.textContent = [...said, ...(left ? [`${left} of ${own.length} wanting`] : [])].join(" · ")
      told.hidden = !others.length
    })
  }

  const outcome = one => one.state === "clear" || one.state === "decided by a person" ? one.outcomes[0][1] : one.state

  return { values, decision, outcome }
})()
