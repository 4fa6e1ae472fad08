// A job's readings as cells, and how sure they are. As procgen/compose/readings.py: what a later session read of a member
// takes the place of all that was read of it before, unless it continues another. A job is the content of its file:
// { id, family, variant, gauges, sessions, overrides }, a session { id, card, on, by, gauge, continues, readings }.
class Readings {
  // `cards`: by id, { readings: specifications, units }; `gauges`: [kind, U, U of a difference, from, to] by id.
  constructor(job, cards, gauges, guard) {
    this.job = job
    this.gauges = gauges
    this.guardShare = guard
    this.standing = new Map()
    this.depthsOf = new Map()
    for (const session of job.sessions) {
      const card = cards[session.card]
      if (!card) continue
      const there = [...Readings.leaves(session, card)].map(([name, members, leaf]) =>
        [name, members, Readings.value(card.readings[name], leaf, card.units)]).filter(([, , value]) => value)
      if (!session.continues) this.putAside(session.card, card, there)
      for (const [name, members, value] of there) this.take(session, card, name, members, value)
    }
  }

  // Whose reading it is, apart from depth and way across.
  static whose(spec, members) {
    return members.slice(0, Readings.above(spec).length)
  }

  putAside(id, card, there) {
    const at = (name, members) => Cells.key([name, ...Readings.whose(card.readings[name], members)])
    const renewed = new Set(there.map(([name, members]) => at(name, members)))
    for (const [named, found] of [...this.standing]) {
      if (found.card !== id || !renewed.has(at(found.name, found.members))) continue
      this.standing.delete(named)
      const spec = card.readings[found.name]
      if (spec.each.includes("depth")) this.depthsOf.delete(Cells.key([id, ...Readings.whose(spec, found.members)]))
    }
  }

  static WITHIN = ["depth", "axis"]

  static above(spec) {
    return spec.each.filter(axis => !Readings.WITHIN.includes(axis))
  }

  static named(card, name, members) {
    return [`${card}/${name}`, ...members].join(" ")
  }

  // Every [reading, members, leaf] of a session, in its order.
  static *leaves(session, { readings: specs, units }) {
    for (const [key, content] of Object.entries(session.readings)) {
      const spec = specs[key]
      if (spec && !Readings.above(spec).length) yield* Readings.below(key, spec, [], content, units)
      else for (const [member, readings] of Object.entries(spec ? {} : content || {})) {
        for (const [name, leaf] of Object.entries(readings || {})) {
          const of = specs[name]
          if (of && Readings.above(of)[0] === key) yield* Readings.below(name, of, [member], leaf, units)
        }
      }
    }
  }

  static *below(name, spec, members, content, units) {
    if (members.length === spec.each.length) yield [name, members, content]
    else for (const member of Readings.inOrder(spec.each[members.length], content || {}, units)) {
      yield* Readings.below(name, spec, [...members, member], content[member], units)
    }
  }

  // Depths by how deep they are: an object would have whole numbers first.
  static inOrder(axis, content, units) {
    const members = Object.keys(content)
    return axis === "depth" ? members.sort((a, b) => Readings.depth(a, units) - Readings.depth(b, units)) : members
  }

  // [the value in base units or the word, why it was confirmed], or null where nothing is there.
  static value(spec, leaf, units) {
    const [said, because] = leaf !== null && typeof leaf === "object" ? [leaf.is, leaf.because || ""] : [leaf, ""]
    if (said === null || said === undefined || said === "") return null
    if (spec.choices) return [String(said), because]
    const number = Readings.quantity(String(said), spec, units)
    return number === null ? null : [number, because]
  }

  // "98.412 mm" in base units; a bare number is in mm. null where it can't be read.
  static quantity(text, spec, units) {
    const found = /^([-\u2212]?[\d.,/ ]*\d) ?([^\d\s].*)?$/.exec(text.trim())
    const number = found && Numbers.decimal(found[1])
    if (!number) return null
    const symbol = found[2] || Readings.bare(spec)
    const unit = units[symbol]
    return unit && unit[4] === spec.measures ? Numbers.toBase(number, unit) : null
  }

  // A depth as a key, in mm; bare it is in mm too. null where it is none.
  static depth(text, units) {
    return Readings.quantity(text, { measures: "length", units: ["mm"] }, units)
  }

  // The unit of a figure that bears none.
  static bare(spec) {
    return spec.units.includes("mm") ? "mm" : spec.units[0]
  }

  take(session, card, name, members, value) {
    const spec = card.readings[name]
    const depth = spec.each.indexOf("depth")
    const mm = depth < 0 ? null : Readings.depth(members[depth], card.units)
    if (depth >= 0 && mm === null) return
    const [number, because] = value
    this.standing.set(Readings.named(session.card, name, members), {
      value: number, because, session, card: session.card, name, members, gauge: this.gaugeOf(session, name, spec),
    })
    if (depth >= 0) {
      const at = Cells.key([session.card, ...members.slice(0, depth)])
      if (!this.depthsOf.has(at)) this.depthsOf.set(at, new Map())
      this.depthsOf.get(at).set(members[depth], mm)
    }
  }

  // The gauge named for the reading; else the only one of its kind.
  gaugeOf(session, name, spec) {
    const named = (session.gauge || {})[name]
    if (named) return this.gauges[named] ? named : null
    const fitting = Object.keys(this.gauges).filter(id => spec.gauge && this.gauges[id][0] === spec.gauge)
    return fitting.length === 1 ? fitting[0] : null
  }

  // The depths at which anything of that member was read, in order, each with its mm.
  depths(card, members) {
    return this.depthsOf.get(Cells.key([card, ...members])) || new Map()
  }

  allDepths(card) {
    const own = [...this.depthsOf].filter(([at]) => JSON.parse(at)[0] === card)
    return new Map(own.flatMap(([, depths]) => [...depths]))
  }

  cell(card, name, members) {
    const at = Readings.named(card, name, members)
    const found = this.standing.get(at)
    if (!found) return null
    return typeof found.value === "number" ? Cells.known(found.value, { [at]: 1 }) : Cells.known(found.value)
  }

  // The expanded uncertainty (k = 2) of a value, from its moves; `instead`: as if that gauge had taken what others of its
  // kind took.
  uncertainty(cell, instead = null) {
    const own = []
    const common = new Map()
    const undivided = []
    for (const [name, move] of Object.entries(cell.moves)) {
      const { gauge: used, session } = this.standing.get(name)
      const gauge = instead !== null && used !== null && this.kind(used) === this.kind(instead) ? instead : used
      const [, whole, difference] = this.gauges[gauge] || ["", null, null]
      if (gauge !== null && difference !== null) {
        const each = difference / Math.sqrt(2)
        own.push(move * each)
        const at = Cells.key([gauge, session.id])
        common.set(at, (common.get(at) || 0) + move * Math.sqrt(Math.max((whole || 0) ** 2 - each ** 2, 0)))
      } else undivided.push(move * (whole || 0))
    }
    const shared = [...common.values()]
    const sum = list => list.reduce((total, one) => total + one, 0)
    return Math.max(Math.hypot(...own, ...shared, ...undivided), Math.hypot(...own, sum(shared) + sum(undivided)))
  }

  guard(cell, instead = null) {
    return this.guardShare * this.uncertainty(cell, instead)
  }

  kind(gauge) {
    return this.gauges[gauge][0]
  }

  // The gauges that could have taken readings of the cell as well: of the kind, and reaching so far.
  others(cell) {
    const taken = Object.keys(cell.moves).map(name => this.standing.get(name)).filter(one => one.gauge !== null)
    return Object.keys(this.gauges).filter(id => {
      const [kind, sure, , low, high] = this.gauges[id]
      const replaced = taken.filter(one => this.kind(one.gauge) === kind)
      return replaced.length && sure !== null && replaced.every(({ value }) => low === null || (low <= value && value <= high))
    })
  }

  // What a person decided for that member, the last where there are several.
  override(card, decision, bound) {
    const axes = Object.keys(bound)
    return (this.job.overrides || []).filter(one =>
      one.decision === `${card}/${decision}` && axes.every(axis => String(one[axis]) === bound[axis])).pop() || null
  }
}
