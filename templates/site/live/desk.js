// What a card's page works on: the job, its readings of this card, which member is open, and what all of it comes to.
class Desk {
  constructor(family, id, cards) {
    Object.assign(this, { family, id, cards, watchers: [] })
    this.print = { shows: cards[id].shows, units: cards[id].units }
    this.use(Store.current(family))
  }

  // Begin with a job, or with none: then nothing can be entered.
  use(job) {
    this.job = job
    this.open = Store.open(job ? job.id : "", this.id)
    if (job) Store.setCurrent(this.family, job.id)
    this.refresh()
  }

  watch(watcher) {
    this.watchers.push(watcher)
    watcher()
  }

  refresh() {
    const none = { id: "", family: this.family, variant: null, gauges: {}, sessions: [], overrides: [] }
    this.print.length = Units.wanted()
    this.bench = new Bench(this.job || none, this.cards)
    this.scope = this.bench.scope(this.id)
    this.verdicts = Verdicts.verdicts(this.scope, this.print)
    for (const [axis, members] of Object.entries(this.scope.card.members)) {
      if (!members.includes(this.open[axis])) this.open[axis] = members[0]
    }
    this.watchers.forEach(watcher => watcher())
  }

  show(axis, member) {
    this.open[axis] = member
    Store.saveOpen(this.job ? this.job.id : "", this.id, this.open)
    this.refresh()
  }

  // The session that this page writes in: the card's last.
  session(make = false) {
    const own = this.job.sessions.filter(one => one.card === this.id)
    if (own.length || !make) return own[own.length - 1] || null
    return this.begin()
  }

  // Another measuring: what it reads takes the place of what was read before.
  begin() {
    const count = this.job.sessions.filter(one => one.card === this.id).length + 1
    const session = { id: `${this.id}-${count}`, card: this.id, on: Desk.today(), gauge: {}, readings: {} }
    this.job.sessions.push(session)
    return session
  }

  static today() {
    const now = new Date()
    return [now.getFullYear(), now.getMonth() + 1, now.getDate()].map(part => String(part).padStart(2, "0")).join("-")
  }

  // Where a reading's leaf stands in a session: a member's readings under what it is one of.
  path(name, members) {
    const above = Readings.above(this.scope.card.readings[name])
    return [...above.flatMap((axis, place) => [axis, members[place]]), name, ...members.slice(above.length)]
  }

  leaf(name, members) {
    const session = this.job && this.session()
    return session ? this.path(name, members).reduce((at, key) => at && at[key], session.readings) ?? null : null
  }

  put(name, members, leaf) {
    const path = this.path(name, members)
    const last = path.pop()
    const readings = this.session(true).readings
    const at = path.reduce((within, key) => within[key] = within[key] || {}, readings)
    if (leaf === null) delete at[last]
    else at[last] = leaf
    this.keep()
  }

  keep() {
    Store.saveJob(this.job)
    this.refresh()
  }

  // The members of a reading that are open now, by its axes; depths and ways across are all open.
  bound(spec) {
    return Object.fromEntries(Readings.above(spec).map(axis => [axis, this.open[axis]]))
  }

  // The verdicts for the open members.
  openVerdicts() {
    return this.verdicts.filter(one => Object.entries(one.bound).every(([axis, member]) => this.open[axis] === member))
  }

  // "in", "queried" or "" of one reading's member.
  state(name, members) {
    if (!this.bench.readings.standing.has(Readings.named(this.id, name, members))) return ""
    return this.scope.queried(name, members) ? "queried" : "in"
  }
}
