// The operations of formulas on cells: states, numbers, and how a result moves with each reading. As
// procgen/formula/operations.py.
const Operations = (() => {
  "use strict"

  const { NONE, known, refused, isKnown, holds, waiting, notKnown } = Cells

  // The moves of a sum of cells, each scaled.
  function moved(...parts) {
    const moves = {}
    for (const [scale, cell] of parts) {
      for (const name of Object.keys(cell.moves)) moves[name] = (moves[name] || 0) + scale * cell.moves[name]
    }
    return moves
  }

  const finite = (value, moves) => Number.isFinite(value) ? known(value, moves) : refused("the result is too large to hold")

  function arithmetic(operator, a, b, step) {
    const waits = notKnown([a, b])
    if (waits) return waits
    const [x, y] = [a.value, b.value]
    switch (operator) {
      case "+": return finite(x + y, moved([1, a], [1, b]))
      case "-": return finite(x - y, moved([1, a], [-1, b]))
      case "*": return finite(x * y, moved([y, a], [x, b]))
    }
    if (Numbers.equal(y, 0, step)) return refused("divides by nothing: the divisor is 0 here")
    return finite(x / y, moved([1 / y, a], [-x / y / y, b]))
  }

  function absolute(cell) {
    return notKnown([cell]) || known(Math.abs(cell.value), moved([cell.value < 0 ? -1 : 1, cell]))
  }

  function root(cell) {
    const waits = notKnown([cell])
    if (waits) return waits
    if (cell.value < 0) return refused("takes the root of a number below 0")
    const value = Math.sqrt(cell.value)
    return known(value, moved([0.5 / Math.max(value, Math.sqrt(6e-6)), cell]))
  }

  function nextUp(steps, x, step) {
    const waits = notKnown([steps, x])
    if (waits) return waits
    const enough = steps.value.filter(one => Numbers.atMost(x.value, one, step))
    return enough.length ? known(Math.min(...enough)) : NONE
  }

  // With doubt, which gives the guard band of a difference from its moves, what lies too near its limit is close.
  function compare(operator, a, b, step, doubt) {
    const waits = notKnown([a, b])
    if (waits) return waits
    if (operator[0] === ">") [operator, a, b] = [operator.replace(">", "<"), b, a]
    const [low, high] = [a.value, b.value]
    const smaller = operator === "<=" ? Numbers.atMost : Numbers.isLess
    const moves = doubt ? moved([1, a], [-1, b]) : {}
    if (Object.keys(moves).length) {
      const guard = doubt(known(low - high, moves))
      if (smaller(low, high + guard, step) && !smaller(low, high - guard, step)) {
        return { state: "close", because: Object.keys(moves).sort(), moves: {} }
      }
    }
    return known(smaller(low, high, step))
  }

  const deny = cell => isKnown(cell) ? known(!holds(cell)) : cell

  function logic(operator, cells) {
    const decides = operator === "or"
    if (cells.some(cell => isKnown(cell) && holds(cell) === decides)) return known(decides)
    return waiting(cells) || (cells.some(cell => cell.state === "none") ? NONE : known(!decides))
  }

  function filtered(cell, condition) {
    if (isKnown(condition)) return holds(condition) ? cell : NONE
    return notKnown([cell, condition]) || NONE
  }

  function chosen(condition, then, otherwise) {
    if (isKnown(condition)) return holds(condition) ? then : otherwise
    if (condition.state === "none") return NONE
    const sides = [then, otherwise].filter(side => side.refused === undefined)
    return waiting([condition, ...sides]) || NONE
  }

  const parts = cell => Array.isArray(cell.value) ? cell.value.map(value => known(value)) : [cell]

  // The first of the largest, or of the smallest.
  const extreme = (cells, sign) => cells.reduce((best, cell) => sign * cell.value > sign * best.value ? cell : best)

  function reduced(name, cells) {
    let left = cells.filter(cell => cell.state !== "none")
    if ((name === "any" || name === "all") && left.length) return logic(name === "any" ? "or" : "and", left)
    const waits = waiting(left)
    if (waits) return waits
    left = left.flatMap(parts)
    if (name === "count") return known(left.filter(cell => cell.value !== false).length)
    if (!left.length) return NONE
    if (name === "max") return extreme(left, 1)
    if (name === "min") return extreme(left, -1)
    if (name === "span") {
      const [largest, smallest] = [extreme(left, 1), extreme(left, -1)]
      return known(largest.value - smallest.value, moved([1, largest], [-1, smallest]))
    }
    const share = name === "mean" ? 1 / left.length : 1
    const total = left.reduce((sum, cell) => sum + cell.value, 0)
    return finite(name === "mean" ? total / left.length : total, moved(...left.map(cell => [share, cell])))
  }

  return { moved, arithmetic, absolute, root, nextUp, compare, deny, logic, filtered, chosen, reduced }
})()
