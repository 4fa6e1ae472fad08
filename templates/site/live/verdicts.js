// A job's verdicts: for each decision and member the branch taken, what had a say in it, or what is wanting. As
// procgen/compose/verdicts.py and margins.py, in the same words.
const Verdicts = (() => {
  "use strict"

  const TURNED = { "<": ">", "<=": ">=", ">": "<", ">=": "<=" }
  const known = Cells.isKnown

  // `print`: { shows, units, length }, with `length` the unit that the reader wants for lengths, where that is chosen.
  function verdicts(scope, print) {
    return Object.entries(scope.card.decisions).flatMap(([name, decision]) => scope.indices(decision.each).flatMap(bound => {
      const there = scope.applies(decision.when, bound)
      return there.state === "none" || there.value === false ? [] : [verdict(name, decision, bound, there, scope, print)]
    }))
  }

  function verdict(name, decision, bound, there, scope, print) {
    let [possible, waits] = scope.possible(name, bound)
    if (!known(there)) waits = [there, ...waits]
    const said = branch => filled(branch.action, scope, print, bound)
    const found = blunt(margins(decision, bound, possible[possible.length - 1], scope, print))
    const settled = possible.length === 1 && known(there)
    const override = scope.bench.readings.override(scope.id, name, bound)
    const chosen = override ? decision.branches.filter(branch => branch.id === override.branch) : possible
    const state = override ? "decided by a person" : settled ? "clear" : worst(waits)
    const decided = override || state === "clear"
    const against = override && !(possible.length === 1 && possible[0].id === override.branch)
    return {
      card: scope.id,
      decision: name,
      title: decision.title,
      each: decision.each.length ? scope.card.words[decision.each[0]] : "",
      member: Object.values(bound).join(" "),
      bound,
      state,
      outcomes: chosen.map(branch => [branch.id, said(branch)]),
      detail: decided ? filled(chosen[0].detail, scope, print, bound) : "",
      margins: found,
      waits_for: decided || state === "too close to call" ? [] : wanted(waits, scope),
      settles: state === "too close to call" ? settles(found, scope.bench.readings) || follows(waits) : "",
      by: override ? override.by : "",
      reason: override ? override.reason : "",
      against: against ? possible.map(said).join(" or ") : "",
    }
  }

  // Where another verdict is too close: the readings that settle both.
  function follows(waits) {
    const close = waits.filter(cell => cell.state === "close").flatMap(cell => cell.because)
    const names = [...new Set(close.map(name => spoken(name.slice(name.indexOf("/") + 1))))].sort()
    return names.length ? `follows from ${names.join(", ")}, which must be measured again` : ""
  }

  function worst(waits) {
    const states = waits.map(cell => cell.state)
    return states.includes("unknown") ? "not yet known" : states.includes("wanting") ? "wanting" : "too close to call"
  }

  // What to measure, where and with what; what the family has to state; each once.
  function wanted(waits, scope) {
    const names = waits.filter(cell => cell.state === "unknown" || cell.state === "wanting").flatMap(cell => [...cell.because].sort())
    return [...new Set(names.filter(name => !name.includes("/")).map(name => scope.card.ask[name] || asked(name, scope.bench)))]
  }

  // What another card's name is called, where only that one knows.
  function asked(name, bench) {
    const knows = name.includes(".") && Object.values(bench.cards).find(card => card.ask[name])
    return knows ? knows.ask[name] : name
  }

  // Every comparison of readings that had a say, in order, up to the branch `last`; each pair of sides once.
  function margins(decision, bound, last, scope, print) {
    const seen = new Set()
    const found = []
    for (const branch of decision.branches) {
      const all = branch.tree ? comparisons(branch.tree) : []
      const heard = branch.tree ? new Set(comparisons(branch.tree, bound, scope)) : []
      all.forEach((tree, place) => {
        if (!heard.has(tree)) return
        const [pair, ...sides] = branch.sides[place]
        const margin = seen.has(pair) ? null : measured(tree, sides, bound, scope, print)
        seen.add(pair)
        if (margin) found.push(margin)
      })
      if (last && branch.id === last.id) break
    }
    return found
  }

  // The comparisons of a tree, each before its parts, in the order in which the author wrote them; with a scope without
  // those that something beside them rules out, such as the kind of a plug.
  function comparisons(tree, bound = null, scope = null) {
    if (!Array.isArray(tree) || tree[0] === "value" || tree[0] === "cells") return []
    if (scope && tree[0] === "and") {
      const others = tree.slice(1).filter(term => !comparisons(term).length)
      if (others.some(term => Cells.one(Evaluate(term, scope, bound)).value === false)) return []
    }
    if (tree[0] === "and" || tree[0] === "or") return tree.slice(1).flatMap(term => comparisons(term, bound, scope))
    const own = tree[0] in TURNED ? [tree] : []
    const parts = tree[0] === "if" ? [tree[2], tree[1], tree[3]] : tree[0] === "call" ? tree[2] : tree.slice(1)
    return [...own, ...parts.flatMap(part => comparisons(part))]
  }

  function measured(tree, sides, bound, scope, print) {
    let [operator, ...trees] = tree
    let [left, right] = trees.slice(0, 2).map(side => Cells.one(Evaluate(side, scope, bound)))
    const moves = cell => Object.keys(cell.moves).length > 0
    if (!known(left) || !known(right) || !(moves(left) || moves(right))) return null
    let side = sides[0]
    if (!moves(left)) [left, right, side, operator] = [right, left, sides[1], TURNED[operator]]
    return judged(side, left, right, operator === "<=" || operator === ">", tree[3], scope.bench.readings, print)
  }

  // `most`: the limit is an upper one.
  function judged([title, show], left, right, most, step, readings, print) {
    const difference = Cells.known(left.value - right.value, Operations.moved([1, left], [-1, right]))
    const [uncertainty, guard] = [readings.uncertainty(difference), readings.guard(difference)]
    const over = most ? difference.value : -difference.value
    const called = guard => Numbers.atMost(over, -guard, step) ? "INSIDE" : Numbers.isLess(guard, over, step) ? "OUTSIDE" : "TOO CLOSE"
    const side = called(guard)
    const others = side === "TOO CLOSE" ? readings.others(difference) : []
    const text = number => figure(Cells.known(number), show, print)
    const sure = finer => {
      const said = figure(Cells.known(uncertainty), show, print, "", finer)
      return /[1-9]/.test(said) || !Numbers.isLess(0, uncertainty, step) ? said : sure(finer + 1)
    }
    return {
      title, value: left.value, limit: right.value, uncertainty, guard, limit_is: most ? "most" : "least", side,
      value_text: text(left.value), limit_text: text(right.value), margin_text: text(-over),
      uncertainty_text: sure(0), readings: Object.keys(difference.moves).sort(), blunt: false,
      settled_by: others.filter(id => called(readings.guard(difference, id)) !== "TOO CLOSE").sort(),
    }
  }

  // Marked where two limits of one value lie so near that the gauge could never accept anything.
  function blunt(found) {
    return found.map(one => ({ ...one, blunt: found.some(other => other.title === one.title &&
      other.limit_is !== one.limit_is && Math.abs(other.limit - one.limit) < one.guard + other.guard) }))
  }

  // What would settle those that are too close: what to measure again, and with how fine a gauge.
  function settles(found, readings) {
    const close = found.filter(margin => margin.side === "TOO CLOSE")
    if (!close.length) return ""
    const onLimit = close.find(margin => !/[1-9]/.test(margin.margin_text))
    if (onLimit) return `${onLimit.title} lies on its limit: a named person decides`
    const again = `measure ${[...new Set(close.map(margin => margin.title))].join(" and ")} again`
    const fine = close[0].settled_by.filter(id => close.every(margin => margin.settled_by.includes(id)))
    if (fine.length) return `${again}, with ${fine.map(spoken).join(" or ")}`
    const gauges = new Set(close.flatMap(margin => margin.readings).map(name => readings.standing.get(name).gauge))
    const names = [...gauges].filter(id => id !== null).map(spoken).sort().join(" and ")
    const far = margin => Math.abs(margin.value - margin.limit)
    const nearest = close.reduce((best, one) => far(one) < far(best) ? one : best)
    const size = nearest.margin_text.replace(/^\u2212/, "")
    return `${again}, more finely than with ${names}: U of ${nearest.title} must be under ${size}`
  }

  const spoken = id => id.replace(/_/g, " ")

  function tenths(step, finer) {
    const [whole, part = ""] = step.split(".")
    const digits = (whole + part).padStart(part.length + finer + 1, "0")
    return `${digits.slice(0, -part.length - finer)}.${digits.slice(-part.length - finer)}`
  }

  // A cell as it prints within a sentence; `finer`: with so many more decimals.
  function figure(cell, show, print, side = "", finer = 0) {
    const [ours, theirs] = print.shows[show]
    const [step, ...rest] = theirs && theirs[1] === print.length ? theirs : ours
    const chosen = [finer ? tenths(step, finer) : step, ...rest]
    const text = !known(cell) ? (cell.state === "none" ? "–" : "____")
      : Numbers.shown(cell.value, chosen, print.units, { "≤": "down", "≥": "up" }[side])
    return `${text}${chosen[1] && chosen[1] !== "°" ? "\u202f" : ""}${chosen[1]}`
  }

  // A text with the marks filled in: what stands for a name is its figures, each once; of one member where one is bound.
  function filled(parts, scope, print, bound = {}) {
    if (typeof parts === "string") return parts
    return parts.map(part => typeof part === "string" ? part : either([...new Set(figures(part[0], scope, print, bound))])).join("")
  }

  const either = said => said.length > 1 ? `${said.slice(0, -1).join(", ")} or ${said[said.length - 1]}` : said[0] || "–"

  function* figures(name, scope, print, bound) {
    const isOf = (axes, members) => axes.every((axis, place) => !(axis in bound) || bound[axis] === members[place])
    const { [name]: settled } = scope.card.marked
    if (settled) {
      for (const [members, text] of settled[1]) if (isOf(settled[0], members)) yield text
      return
    }
    const [prefix, rest] = name.split(".")
    const owner = rest ? scope.bench.scope(prefix.replace(/_/g, "-")) : scope
    const spec = owner && owner.card.values[rest || name]
    if (!spec || spec.show === undefined) return yield "____"
    const whole = owner.whole(rest || name)
    for (const [members, cell] of Cells.entries(whole)) {
      if (isOf(whole.axes, members)) yield figure(cell, spec.show, { ...print, shows: owner.card.shows, units: owner.card.units }, spec.side)
    }
  }

  return { verdicts, figure, filled, comparisons }
})()
