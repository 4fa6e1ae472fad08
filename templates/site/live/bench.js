// One engine on the stand, with the cards that have a say in each other.
class Bench {
  // `cards`: data of cards by id (procgen/compose/live.py); `family`: the job's.
  constructor(job, cards, shopGauges = {}) {
    this.job = job
    this.cards = {}
    const gauges = { ...shopGauges }
    let guard = 1
    for (const [id, data] of Object.entries(cards)) {
      this.cards[id] = { ...Bench.inVariant(data, job), units: data.units, shows: data.shows }
      Object.assign(gauges, data.gauges)
      guard = data.guard
    }
    const units = Object.assign({}, ...Object.values(this.cards).map(card => card.units))
    const own = Object.entries(job.gauges || {}).map(([id, gauge]) => [id, Bench.gauge(gauge || {}, units)])
    this.readings = new Readings(job, this.cards, { ...gauges, ...Object.fromEntries(own) }, guard)
    this.scopes = {}
  }

  // A gauge that the job brings: its kind, what it is sure to, and what it reaches from and to.
  static gauge({ kind, uncertainty, difference_uncertainty, range }, units) {
    const sure = text => {
      const [, number, symbol] = /^(\S+) (.+)$/.exec(text || "") || []
      return number && units[symbol] ? Numbers.toBase(Numbers.decimal(number), units[symbol]) : null
    }
    const [low, high] = range || []
    return [kind, ...[uncertainty, difference_uncertainty, low, high].map(sure)]
  }

  // A card's data for the variant as found, and as built where the card asks for that.
  static inVariant(data, { variant, build }) {
    const names = Object.keys(data.variants)
    const first = data.variants[names[0]]
    const own = data.variants[`${variant}>${build}`] || data.variants[variant] || first
    const sections = Object.entries(first).map(([name, entries]) => [name, { ...entries, ...(own[name] || {}) }])
    return Object.fromEntries(sections)
  }

  scope(id) {
    if (!this.cards[id]) return null
    return this.scopes[id] = this.scopes[id] || new CardScope(id, this.cards[id], this)
  }
}
