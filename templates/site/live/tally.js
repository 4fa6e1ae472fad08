// Plugs counted one by one, by name: the number read is the number of squares that are marked.
const Tally = (() => {
  "use strict"

  const marked = (desk, name) => desk.job ? Store.marks(desk.job.id, desk.id).counted[name] || [] : []

  function fields(desk, name, spec) {
    const members = desk.scope.members(spec.counts).filter(member => member)
    const toggle = member => {
      const marks = Store.marks(desk.job.id, desk.id)
      const now = new Set(marks.counted[name] || [])
      if (!now.delete(member)) now.add(member)
      const kept = members.filter(one => now.has(one))
      Store.saveMarks(desk.job.id, desk.id, { ...marks, counted: { ...marks.counted, [name]: kept }, done: "" })
      desk.put(name, [], kept.length ? String(kept.length) : null)
    }
    const buttons = members.map(member => h("button", { type: "button", class: "square", onclick: () => toggle(member) },
      h("b", {}, member), h("small", {})))
    const count = h("p", { class: "count", role: "status" })
    desk.watch(() => {
      const now = marked(desk, name)
      buttons.forEach((button, place) => {
        const is = now.includes(members[place])
        button.setAttribute("aria-pressed", String(is))
        button.lastChild.textContent = is ? "counted" : ""
        button.disabled = !desk.job
      })
      count.textContent = `${spec.title}: ${now.length} of ${members.length}`
    })
    return [h("div", { class: "squares tally", role: "group", "aria-label": `Count: ${spec.title}` }, buttons), count]
  }

  // How many the card sets aside, as those that were left in; none while that is not read.
  const aside = (desk, spec) => (spec.aside || []).map(tree => desk.scope.cell(tree, {})).filter(Cells.isKnown)
    .reduce((sum, cell) => sum + cell.value, 0)

  // What is not counted yet, in words.
  function missing(desk) {
    return Object.entries(desk.scope.card.readings).filter(([, spec]) => spec.counts).flatMap(([name, spec]) => {
      const left = desk.scope.members(spec.counts).filter(member => member && !marked(desk, name).includes(member))
      const [count, word] = [left.length - aside(desk, spec), desk.scope.card.words[spec.counts]]
      const which = (count < left.length ? `${count} of ` : "") + left.join(", ")
      return count > 0 ? [`${spec.title}: ${count} ${word}${count > 1 ? "s" : ""} not counted (${which})`] : []
    })
  }

  return { fields, missing }
})()
