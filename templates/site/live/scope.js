// One card's names with their values, for one engine: what Evaluate asks. As procgen/compose/scope.py.
class CardScope {
  // `card`: its data for the variant on the stand; `bench`: { readings, scope(card id) }.
  constructor(id, card, bench) {
    this.id = id
    this.card = card
    this.bench = bench
    this.settled = new Map()
    this.doubt = cell => bench.readings.guard(cell)
  }

  spread(name, bound) {
    return Cells.picked(this.whole(name), bound)
  }

  // A name of another card. What it waits for is called as this card calls it.
  other(card, name, bound) {
    const scope = this.bench.scope(card)
    const prefix = card.replace(/-/g, "_")
    const called = one => one.includes(".") ? one : `${prefix}.${one}`
    const found = scope ? scope.spread(name, bound) : Cells.single(Cells.wanting(name))
    return Cells.spread(found.axes, Cells.entries(found).map(([members, cell]) =>
      [members, cell.because.length && cell.state !== "close" ? { ...cell, because: cell.because.map(called) } : cell]))
  }

  whole(name) {
    if (!this.settled.has(name)) this.settled.set(name, this.settle(name))
    return this.settled.get(name)
  }

  cell(tree, bound) {
    return Cells.one(Evaluate(tree, this, bound, [], this.doubt))
  }

  applies(tree, bound) {
    return tree ? this.cell(tree, bound) : Cells.known(true)
  }

  members(axis) {
    if (axis === "depth") return [...this.stations().keys()]
    return this.card.members[axis] || [""]
  }

  // The depths to measure at, mm, by the name they print under.
  stations() {
    const spec = Object.values(this.card.readings).find(one => one.stations && one.stations.length)
    return new Map(spec ? spec.stations : [["", null]])
  }

  // Every combination of members of these axes; the depths of a cylinder are those at which it was read.
  indices(each, bound = {}) {
    if (!each.length) return [bound]
    const [axis, ...rest] = each
    return this.membersFor(axis, bound).flatMap(member => this.indices(rest, { ...bound, [axis]: member }))
  }

  membersFor(axis, bound) {
    const read = axis === "depth" ? [...this.bench.readings.depths(this.id, Object.values(bound)).keys()] : []
    return read.length ? read : this.members(axis)
  }

  settle(name) {
    const { values, readings, decisions } = this.card
    if (values[name]) return this.each(values[name], bound => this.cell(values[name].tree, bound))
    if (readings[name]) return this.reading(name, readings[name])
    if (decisions[name]) return this.each(decisions[name], bound => this.taken(name, bound))
    const depths = new Map([...this.stations(), ...this.bench.readings.allDepths(this.id)])
    return Cells.spread([name], [...depths].map(([text, mm]) =>
      [[text], mm === null ? Cells.unknown(name) : Cells.known(mm)]))
  }

  // Whether a reading is to be taken at all must be known first.
  each(spec, workOut) {
    return Cells.spread(spec.each, this.indices(spec.each).map(bound => {
      const there = this.applies(spec.when, bound)
      const excluded = there.state === "none" || there.value === false
      const first = spec.branches || spec.tree !== undefined ? null : there.state === "wanting" && there
      return [Object.values(bound), excluded ? Cells.NONE : first || workOut(bound)]
    }))
  }

  // What was read; wanting where it was not, or where fewer were taken than the card asks for.
  reading(name, spec) {
    const read = this.each(spec, bound => this.read(name, spec, Object.values(bound)))
    const outer = Readings.above(spec)
    const missing = []
    for (const bound of spec.least ? this.indices(outer) : []) {
      if (Object.entries(spec.least).some(([where, least]) => this.readAt(read, bound, where) < least)) {
        missing.push([[...Object.values(bound), ...Array(spec.each.length - outer.length).fill("")], Cells.wanting(name)])
      }
    }
    return Cells.spread(spec.each, [...Cells.entries(read), ...missing])
  }

  read(name, spec, members) {
    const cell = this.bench.readings.cell(this.id, name, members)
    return !cell || this.queried(name, members) ? Cells.wanting(name) : cell
  }

  // Between what the reading should lie, where it lies outside and nobody has confirmed it.
  queried(name, members) {
    const spec = this.card.readings[name]
    const found = this.bench.readings.standing.get(Readings.named(this.id, name, members))
    if (!found || !spec.expect || found.because || typeof found.value !== "number") return null
    const near = this.cell(spec.expect[0], Object.fromEntries(spec.each.map((axis, place) => [axis, members[place]])))
    if (!Cells.isKnown(near)) return null
    const [low, high] = [near.value - spec.expect[1], near.value + spec.expect[2]]
    return low <= found.value && found.value <= high ? null : [low, high]
  }

  // At how many depths that member was read where `where` holds.
  readAt(read, bound, where) {
    const there = this.spread(where, bound)
    const depths = new Set()
    for (const [members, cell] of Cells.entries(read)) {
      const at = Object.fromEntries(read.axes.map((axis, place) => [axis, members[place]]))
      const inside = there.cells.get(Cells.key(there.axes.map(axis => at[axis])))
      const mine = Object.entries(bound).every(([axis, member]) => at[axis] === member)
      if (mine && Cells.isKnown(cell) && inside && Cells.holds(inside[1])) depths.add(at.depth || "")
    }
    return depths.size
  }

  // The branch taken: the one that a person chose, else the only one still possible.
  taken(name, bound) {
    const chosen = this.bench.readings.override(this.id, name, bound)
    if (chosen) return Cells.known(chosen.branch)
    const [branches, waits] = this.possible(name, bound)
    return branches.length === 1 ? Cells.known(branches[0].id) : waits[0] || Cells.NONE
  }

  // The branches that may still be the first to hold, and what those that can't be told yet wait for.
  possible(name, bound) {
    const branches = []
    const waits = []
    for (const branch of this.card.decisions[name].branches) {
      const holds = this.applies(branch.tree, bound)
      if (["unknown", "wanting", "close"].includes(holds.state)) {
        waits.push(holds)
        branches.push(branch)
      } else if (Cells.holds(holds)) {
        branches.push(branch)
        break
      }
    }
    return [branches, waits]
  }
}
