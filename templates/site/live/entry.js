// Readings entered: squares for the members, large boxes for figures, large buttons for choices, and queries under them.
const Entry = (() => {
  "use strict"

  let count = 0
  const isOf = (spec, axis) => Readings.above(spec)[0] === axis

  // Squares for the members of an axis: "in" when all of the step's readings of it are there, a thick edge for the open.
  function squares(desk, axis, names) {
    const word = desk.scope.card.words[axis]
    const made = desk.scope.members(axis).filter(member => member).map(member => {
      const state = h("small", {})
      const button = h("button", { type: "button", class: "square", onclick: () => desk.show(axis, member) }, h("b", {}, member), state)
      return { member, state, button }
    })
    desk.watch(() => made.forEach(({ member, state, button }) => {
      const states = names.flatMap(name => wanted(desk, name, member).map(members => desk.state(name, members)))
      state.textContent = states.includes("queried") ? "queried" : states.length && states.every(one => one === "in") ? "in" : ""
      button.setAttribute("aria-pressed", String(desk.open[axis] === member))
    }))
    return h("div", { class: "squares", role: "group", "aria-label": `Which ${word}` }, made.map(one => one.button))
  }

  // Every [member, depth, way] that a reading wants of one member.
  function wanted(desk, name, member) {
    const spec = desk.scope.card.readings[name]
    const each = spec.each.filter(axis => !Readings.above(spec).includes(axis))
    return desk.scope.indices(each, member === undefined ? {} : { [Readings.above(spec)[0]]: member }).map(bound => Object.values(bound))
  }

  // One reading's fields, for the member that is open.
  function fields(desk, name) {
    const spec = desk.scope.card.readings[name]
    const place = h("div", { class: "entry" })
    let shown = null
    desk.watch(() => {
      const bound = desk.bound(spec)
      const now = JSON.stringify([desk.job && desk.job.id, bound, depths(desk, spec, bound), desk.print.length])
      if (now === shown) return
      shown = now
      place.replaceChildren(...made(desk, name, spec, Object.values(bound)))
    })
    return place
  }

  const depths = (desk, spec, bound) => spec.each.includes("depth") ? [...new Set([
    ...desk.bench.readings.depths(desk.id, Object.values(bound)).keys(), ...(desk.more || []),
    ...desk.scope.stations().keys(),
  ])].filter(text => text).sort((a, b) => Readings.depth(a, desk.print.units) - Readings.depth(b, desk.print.units)) : []

  function made(desk, name, spec, members) {
    const label = [spec.title, ...members].join(" ")
    if (spec.each.includes("depth")) return table(desk, name, spec, members, label)
    if (spec.axis) return Object.entries(spec.axis).map(([way, words]) =>
      field(desk, name, spec, [...members, way], `${label}, ${words}`, words))
    return [field(desk, name, spec, members, label, members.length ? label : "")]
  }

  function table(desk, name, spec, members, label) {
    const ways = spec.axis ? Object.entries(spec.axis) : [[null, spec.title]]
    const rows = depths(desk, spec, desk.bound(spec)).flatMap(depth => {
      const deep = depth + (/[^\d.]/.test(depth) ? "" : " mm")
      const row = ways.map(([way, words]) =>
        field(desk, name, spec, [...members, depth, ...(way ? [way] : [])], `${label}, ${deep}, ${words}`))
      const queries = row.map(one => one.querySelector(".query")).filter(Boolean) // under the row, where there is room
      return [h("tr", {}, h("th", { scope: "row" }, depth), row.map(one => h("td", {}, one))),
        queries.length > 0 && h("tr", { class: "queries" }, h("td", { colspan: ways.length + 1 }, queries))]
    })
    const other = h("input", { type: "text", inputmode: "decimal", autocomplete: "off", "aria-label": "Another depth, mm" })
    const add = () => {
      if (!/^\d+(\.\d+)?$/.test(other.value.trim())) return
      desk.more = [...(desk.more || []), other.value.trim()]
      desk.refresh()
    }
    return [
      h("table", { class: "entries" }, h("thead", {}, h("tr", {}, h("th", { scope: "col" }, "depth, mm"),
        ways.map(([, words]) => h("th", { scope: "col" }, words)))), h("tbody", {}, rows)),
      h("p", { class: "more" }, h("span", { class: "enter cut" }, other, h("span", { class: "unit" }, "mm")),
        h("button", { type: "button", onclick: add }, "Add a depth")),
    ]
  }

  const field = (desk, name, spec, members, label, words = "") =>
    (spec.choices ? choice : figure)(desk, name, spec, members, label, words)

  function choice(desk, name, spec, members, label) {
    const group = `choice-${count += 1}`
    const now = desk.leaf(name, members)
    const buttons = Object.entries(spec.choices).map(([word, words]) => h("label", { class: "choice" },
      h("input", { type: "radio", name: group, value: word, checked: now === word, onchange: () => desk.put(name, members, word) }),
      h("span", {}, words)))
    const clear = h("button", { type: "button", class: "clear", onclick: () => {
      group_.querySelectorAll("input").forEach(one => { one.checked = false })
      desk.put(name, members, null)
    } }, "Clear", h("span", { class: "unseen" }, ` ${label}`))
    const group_ = h("fieldset", { disabled: !desk.job }, h("legend", {}, label), buttons, clear)
    return group_
  }

  // What stands in a box: the figure, and the unit that it was entered in.
  function parted(spec, leaf, unit) {
    const said = leaf !== null && typeof leaf === "object" ? leaf.is : leaf
    const found = /^([-\u2212]?[\d.,/ ]*\d) ?([^\d\s].*)?$/.exec(said || "")
    return found ? [found[1], found[2] || Readings.bare(spec)] : [said || "", unit]
  }

  // A difference of temperature is read off in °C; in a file Δ tells it from a temperature.
  function printed(unit) {
    return unit.replace("Δ", "")
  }

  // A gauge on a cable types its figure and Enter.
  function onward(input) {
    const boxes = [...document.querySelectorAll(".field > .enter > input:enabled")]
    const next = boxes[boxes.indexOf(input) + 1]
    if (next) next.focus()
  }

  function figure(desk, name, spec, members, label, words) {
    const id = `reading-${count += 1}`
    const chosen = spec.units.includes(desk.print.length) ? desk.print.length : spec.units[0]
    let [text, unit] = parted(spec, desk.leaf(name, members), chosen)
    const query = h("div", { class: "query", id: `${id}-query`, role: "status" })
    const symbol = h("span", { class: "unit" }, printed(unit))
    const isFigure = () => text === "" || Boolean(Numbers.decimal(text))
    const input = h("input", { id, type: "text", inputmode: "decimal", autocomplete: "off", enterkeyhint: "next", value: text,
      onkeydown: event => { if (event.key === "Enter" && !event.isComposing) onward(input) },
      disabled: !desk.job, "aria-label": words ? null : unit ? `${label}, ${printed(unit)}` : label, "aria-describedby": query.id,
      oninput: () => {
        text = input.value.trim()
        unit = chosen
        symbol.textContent = printed(unit)
        desk.put(name, members, isFigure() && text ? `${text.replace(",", ".")} ${unit}`.trim() : null)
      } })
    const box = h("span", { class: "enter cut" }, input, symbol)
    desk.watch(() => {
      const bounds = desk.scope.queried(name, members)
      const now = bounds || !isFigure() ? text : ""
      input.setAttribute("aria-invalid", String(Boolean(now)))
      box.classList.toggle("queried", Boolean(now))
      if (query.dataset.of === now) return
      query.dataset.of = now
      query.replaceChildren(...(!isFigure() ? [h("p", {}, h("b", {}, `${text}?`), " Not a figure. Write digits and a point.")]
        : bounds ? asks(desk, name, spec, members, text, unit, bounds, input) : []))
    })
    return h("div", { class: "field" }, words && h("label", { for: id }, words), box, query)
  }

  function asks(desk, name, spec, members, text, unit, bounds, input) {
    const [low, high] = bounds.map(bound => Verdicts.figure(Cells.known(bound), spec.show, desk.print))
    const meant = Slips.meant(text, unit, desk.print.units, bounds)
    const take = said => {
      input.value = said
      input.dispatchEvent(new Event("input"))
      input.focus()
    }
    const why = h("input", { type: "text", autocomplete: "off" })
    const keep = () => {
      if (!why.value.trim()) return why.focus()
      desk.put(name, members, { is: `${text} ${unit}`.trim(), because: why.value.trim() })
      input.focus()
    }
    return [
      h("p", {}, h("b", {}, `${text}?`), ` Not between ${low} and ${high}.`, meant && ` Meant ${meant}?`),
      meant && h("p", { class: "answers" }, h("button", { type: "button", onclick: () => take(meant) }, `Take ${meant}`)),
      h("p", { class: "answers" }, h("label", {}, "Or it is right, because ", h("span", { class: "enter cut text" }, why)),
        h("button", { type: "button", onclick: keep }, `Keep ${text}`)),
    ]
  }

  // Which gauge takes a reading, where the shop has one of its kind or several.
  function gauge(desk, name) {
    const kind = desk.scope.card.readings[name].gauge
    const fitting = Object.keys(desk.bench.readings.gauges).filter(id => kind && desk.bench.readings.gauges[id][0] === kind)
    if (fitting.length < 2) return null
    const choose = h("select", { onchange: () => {
      const session = desk.session(true)
      session.gauge = { ...session.gauge, [name]: choose.value || null }
      desk.keep()
    } }, h("option", { value: "" }, "not said"), fitting.map(id => h("option", { value: id }, id.replace(/_/g, " "))))
    desk.watch(() => {
      const session = desk.job && desk.session()
      choose.value = (session && session.gauge && session.gauge[name]) || ""
      choose.disabled = !desk.job
    })
    return h("p", { class: "gauge" }, h("label", {}, "Gauge ", choose))
  }

  // All readings of one step, in place of the boxes for a pencil, which a browser still prints where no job is begun.
  function step(desk, place) {
    const readings = [...place.querySelectorAll(".reading[data-reading]")]
    const names = readings.map(one => one.dataset.reading).filter(name => desk.scope.card.readings[name])
    const axes = new Set()
    for (const one of readings) {
      const name = one.dataset.reading
      const spec = desk.scope.card.readings[name]
      if (!spec) continue
      const [axis] = Readings.above(spec)
      if (axis && !axes.has(axis)) {
        axes.add(axis)
        one.before(squares(desk, axis, names.filter(other => isOf(desk.scope.card.readings[other], axis))))
      }
      const isCounted = spec.counts && desk.scope.members(spec.counts).some(member => member)
      const byHand = one.querySelector(".fills")
      byHand.classList.add("by-hand")
      byHand.after(...(isCounted ? Tally.fields(desk, name, spec) : [fields(desk, name)]))
      one.append(...[gauge(desk, name)].filter(Boolean))
    }
  }

  return { step, figure }
})()
