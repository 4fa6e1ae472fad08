// One engine on the stand, with the cards that have a say in each other.
class Bench {
  // `cards`: data of cards by id (procgen/compose/live.py); `family`: the job's.
  constructor(job, cards, shopGauges = {}) {
    this.job = job
    this.cards = {}
    const gauges = { ...shopGauges }
    let guard = 1
    for (const [id, data] of Object.entries(cards)) {
      this.cards[id] = { ...Bench.inVariant(data, job.variant), units: data.units }
      Object.assign(gauges, data.gauges)
      guard = data.guard
    }
    this.readings = new Readings(job, this.cards, { ...gauges, ...job.gauges }, guard)
    this.scopes = {}
  }

  // A card's data in one variant: where none is named, the only one there is.
  static inVariant(data, variant) {
    const names = Object.keys(data.variants)
    const first = data.variants[names[0]]
    const own = data.variants[variant || names[0]] || first
    const sections = Object.entries(first).map(([name, entries]) => [name, { ...entries, ...(own[name] || {}) }])
    return Object.fromEntries(sections)
  }

  scope(id) {
    if (!this.cards[id]) return null
    return this.scopes[id] = this.scopes[id] || new CardScope(id, this.cards[id], this)
  }
}
