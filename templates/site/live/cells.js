// Cells in one of five states, and spreads of them over the axes of what there is many of. As procgen/formula/cells.py and
// join.py. A spread's cells are a Map by the members' JSON, so that order stays.
const Cells = (() => {
  "use strict"

  const NOTHING = Object.freeze({})
  const NONE = Object.freeze({ state: "none", because: [], moves: NOTHING })
  const WAITING = ["unknown", "wanting", "close"]

  const known = (value, moves = NOTHING) => ({ state: "known", value, because: [], moves })
  const wanting = name => ({ state: "wanting", because: [name], moves: NOTHING })
  const unknown = name => ({ state: "unknown", because: [name], moves: NOTHING })
  const refused = message => ({ state: "unknown", because: [], moves: NOTHING, refused: message })
  const isKnown = cell => cell.state === "known"
  const holds = cell => cell.state === "known" && cell.value === true

  // What stands for anything that needs all of these, those that do not apply aside; null where all are known.
  function waiting(cells) {
    const waits = cells.filter(cell => WAITING.includes(cell.state))
    if (!waits.length) return null
    const wrong = waits.find(cell => cell.refused !== undefined)
    if (wrong) return wrong
    const state = WAITING.find(one => waits.some(cell => cell.state === one))
    return { state, because: [...new Set(waits.flatMap(cell => cell.because))].sort(), moves: NOTHING }
  }

  // The same for arithmetic, where what does not apply wins over all.
  const notKnown = cells => cells.some(cell => cell.state === "none") ? NONE : waiting(cells)

  // From a card's data: a value, or a state with what it waits for.
  function fromJson(data) {
    if (data === null || typeof data !== "object" || Array.isArray(data)) return known(data)
    if (data.refused !== undefined) return refused(data.refused)
    return data.state === "none" ? NONE : { state: data.state, because: data.because, moves: NOTHING }
  }

  const key = members => JSON.stringify(members)
  const spread = (axes, entries) => ({ axes, cells: new Map(entries.map(([members, cell]) => [key(members), [members, cell]])) })
  const single = cell => spread([], [[[], cell]])
  const entries = of => [...of.cells.values()]
  const one = of => (of.cells.get("[]") || [null, NONE])[1]

  const at = (members, places) => places.map(place => members[place])

  // An operation on the cells of all parts that belong together, over the axes of all of them.
  function lift(parts, operation) {
    let axes = []
    let rows = [[[], []]]
    parts.forEach((part, count) => { [axes, rows] = join(axes, rows, part, count) })
    return spread(axes, rows.map(([members, cells]) => [members, operation(cells)]))
  }

  function join(axes, rows, part, count) {
    const shared = part.axes.filter(axis => axes.includes(axis))
    const here = shared.map(axis => axes.indexOf(axis))
    const there = shared.map(axis => part.axes.indexOf(axis))
    const fresh = part.axes.map((axis, place) => place).filter(place => !axes.includes(part.axes[place]))
    const byShared = new Map()
    for (const [members, cell] of entries(part)) {
      const common = at(members, there)
      if (!byShared.has(key(common))) byShared.set(key(common), [common, []])
      byShared.get(key(common))[1].push([at(members, fresh), cell])
    }
    const result = new Map()
    const put = (members, cells) => result.set(key(members), [members, cells])
    const met = new Set()
    for (const [members, cells] of rows) {
      const common = at(members, here)
      met.add(key(common))
      const partners = byShared.get(key(common))
      if (partners) for (const [rest, cell] of partners[1]) put([...members, ...rest], [...cells, cell])
      else if (common.includes("")) put([...members, ...fresh.map(() => "")], [...cells, cells[0]]) // never drops out
    }
    for (const [name, [common, partners]] of byShared) {
      if (!common.includes("") || met.has(name)) continue
      for (const [rest, cell] of partners) {
        const stands = axes.map(axis => shared.includes(axis) ? common[shared.indexOf(axis)] : "")
        put([...stands, ...rest], Array(count + 1).fill(cell))
      }
    }
    return [[...axes, ...fresh.map(place => part.axes[place])], [...result.values()]]
  }

  // The part of a spread that lies on the bound members, over the axes that are left.
  function picked(of, bound) {
    const free = of.axes.map((axis, place) => place).filter(place => !(of.axes[place] in bound))
    if (free.length === of.axes.length) return of
    const kept = entries(of).filter(([members]) =>
      of.axes.every((axis, place) => !(axis in bound) || members[place] === bound[axis]))
    return spread(free.map(place => of.axes[place]), kept.map(([members, cell]) => [at(members, free), cell]))
  }

  return { NONE, known, wanting, unknown, refused, isKnown, holds, waiting, notKnown, fromJson, spread, single, entries,
    one, lift, picked, key }
})()
