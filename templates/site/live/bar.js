// The verdict, always in sight at the foot: a word, the figure of its limit, a scale, and what would settle it.
const Bar = (() => {
  "use strict"

  const WORDS = { "clear": "Settled", "wanting": "Wanting", "not yet known": "Not yet known", "decided by a person": "Decided" }

  // A thick line from nought to the limit, hatch beyond, the reading with its gauge's uncertainty; the limit drawn last. A
  // least limit is the same, turned round.
  function scale(margin) {
    const most = margin.limit_is === "most"
    const over = (margin.value - margin.limit) * (most ? 1 : -1)
    const whole = most && margin.limit > 0 ? margin.limit : Infinity
    const reach = Math.min(whole, Math.max(10 * Math.abs(over), 10 * margin.uncertainty)) || 1
    const turned = x => most ? x : 360 - x
    const x = by => turned(Math.min(Math.max(280 * (1 + by / reach), 6), 354))
    const line = (from, y1, to, y2, width, kind) => h("line", { x1: from, y1, x2: to, y2, "stroke-width": width, class: kind })
    const hatch = [0, 1, 2, 3, 4, 5, 6].map(n => line(turned(284 + 10 * n), 22, turned(292 + 10 * n), 12, 1.5))
    const [low, high] = [x(over - margin.uncertainty), x(over + margin.uncertainty)]
    const whisker = Math.abs(high - low) > 14
      ? [line(low, 17, high, 17, 3, "accent"), line(low, 11, low, 23, 3, "accent"), line(high, 11, high, 23, 3, "accent")] : []
    return h("svg", { viewBox: "0 0 360 34", "aria-hidden": "true", class: "margin" },
      line(turned(0), 17, turned(280), 17, 4), reach === whole && line(1, 8, 1, 26, 2), hatch, whisker,
      h("circle", { cx: x(over), cy: 17, r: 6, class: "accent" }), line(turned(280), 2, turned(280), 32, 5))
  }

  // The margin that needs somebody most: too close, then outside, then the nearest to its limit.
  function worst(margins) {
    const rank = one => one.side === "TOO CLOSE" ? 0 : one.side === "OUTSIDE" ? 1 : 2
    const near = one => Math.abs(one.value - one.limit) / (Math.abs(one.limit) || 1)
    return [...margins].sort((a, b) => rank(a) - rank(b) || near(a) - near(b))[0] || null
  }

  // "0.077 mm of ≤ 0.080 mm" of what is measured, in two parts; of what is counted and should not be there, how many.
  function amount(margin) {
    const most = margin.limit_is === "most"
    if (most && margin.limit === 0 && !margin.uncertainty) return [margin.value === 0 ? "none" : margin.value_text, ""]
    return [margin.value_text, ` of ${most ? "≤" : "≥"}\u00a0${margin.limit_text}`]
  }

  const first = text => text ? text[0].toUpperCase() + text.slice(1) : ""
  const few = words => [...words.slice(0, 3), ...(words.length > 3 ? [`and ${words.length - 3} more`] : [])].join("; ")
  const either = verdict => verdict.outcomes.map(([, action]) => action).join(" or ")

  // [word, figure, margin, sentence] of a verdict; `queried`: readings of it that wait for an answer.
  function said(verdict, queried) {
    const who = verdict.member ? `${first(verdict.each)} ${verdict.member}. ` : ""
    const margin = worst(verdict.margins)
    const asked = queried ? `${queried} reading${queried > 1 ? "s" : ""} queried and not counted. ` : ""
    const tell = words => `${who}${asked}${words}`
    if (verdict.state === "too close to call" && margin) {
      const figures = `${first(margin.title)}. Gauge U ${margin.uncertainty_text}. ${first(verdict.settles)}.`
      return [margin.side, margin, tell(`${either(verdict)}? ${figures}`)]
    }
    if (verdict.state === "clear" || verdict.state === "decided by a person") {
      const detail = verdict.state === "clear" ? verdict.detail : `${verdict.by}: ${verdict.reason}`
      return [either(verdict), margin, tell(margin ? `${first(margin.title)}: ${margin.side}. ${detail}` : detail)]
    }
    return [WORDS[verdict.state] || verdict.state, null, tell(`${first(verdict.title)} ${first(few(verdict.waits_for))}.`)]
  }

  // The open verdict that needs somebody most; the one that was last worked on goes first.
  function chosen(desk) {
    const rank = one => ["too close to call", "wanting", "not yet known", "decided by a person", "clear"].indexOf(one.state)
    const open = desk.openVerdicts()
    const near = open.filter(one => desk.near && desk.near.includes(one.decision))
    return [...(near.length ? near : open)].sort((a, b) => rank(a) - rank(b))[0] || null
  }

  function make(desk) {
    const place = h("section", { class: "verdict", "aria-label": "Verdict", "aria-live": "polite" })
    desk.watch(() => {
      const verdict = desk.job && chosen(desk)
      place.hidden = !verdict
      if (!verdict) return
      const queried = Object.entries(desk.scope.card.readings).flatMap(([name, spec]) =>
        desk.scope.indices(spec.each).filter(bound => Object.entries(verdict.bound).every(([axis, member]) => !(axis in bound) || bound[axis] === member))
          .filter(bound => desk.state(name, Object.values(bound)) === "queried")).length
      const [word, margin, sentence] = said(verdict, queried)
      place.replaceChildren(
        h("p", { class: "first" }, h("b", { class: "word" }, word),
          margin && h("span", {}, h("b", { class: "figure" }, amount(margin)[0]), amount(margin)[1])),
        ...(margin ? [scale(margin)] : []), h("p", {}, sentence))
    })
    return place
  }

  return { make, said, worst, amount }
})()
