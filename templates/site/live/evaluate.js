// A formula's tree evaluated, cell by cell, over the axes of what it names. As procgen/formula/evaluate.py; the trees are
// those of procgen/compose/trees.py. A scope has spread(name, bound), other(card, name, bound) and members(axis).
const Evaluate = (() => {
  "use strict"

  const O = Operations
  const { lift, picked, spread, single, entries } = Cells

  function evaluate(tree, scope, bound = {}, keep = [], doubt = null) {
    const of = node => evaluate(node, scope, bound, keep, doubt)
    const [tag, ...parts] = tree
    switch (tag) {
      case "whole": return single(Cells.known(parts[0]))
      case "value": return single(Cells.fromJson(parts[0]))
      case "cells": return picked(spread(parts[0], parts[1].map(([m, cell]) => [m, Cells.fromJson(cell)])), bound)
      case "name": return scope.spread(parts[0], bound)
      case "of": return scope.other(parts[0], parts[1], bound)
      case "pick": return pick(of(parts[0]), parts[1], scope)
      case "call": return call(parts[0], parts[1].map(of), parts[2] || 0, keep)
      case "negate": return lift([of(parts[0])], ([cell]) => O.arithmetic("*", Cells.known(-1), cell, 0))
      case "+": case "-": case "*": case "/":
        return lift([of(parts[0]), of(parts[1])], ([a, b]) => O.arithmetic(tag, a, b, parts[2] || 0))
      case "<": case "<=": case ">": case ">=":
        return lift([of(parts[0]), of(parts[1])], ([a, b]) => O.compare(tag, a, b, parts[2], doubt))
      case "is": return lift([of(parts[0])], ([cell]) =>
        Cells.isKnown(cell) ? Cells.known(parts[1].includes(cell.value) !== parts[2]) : cell)
      case "and": case "or": return lift(parts.map(of), cells => O.logic(tag, cells))
      case "not": return lift([of(parts[0])], ([cell]) => O.deny(cell))
      case "if": return choose(of(parts[0]), () => of(parts[1]), () => of(parts[2]))
    }
    throw new Error(`no formula begins with ${tag}`)
  }

  // The cells under one member of the axis that has it; what is not there yet stands in for it.
  function pick(of, member, scope) {
    const has = (axis, place) => entries(of).some(([members]) => members[place] === member)
    const axis = of.axes.find(one => (scope.members(one) || []).includes(member)) || of.axes.find(has) ||
      of.axes[of.axes.length - 1]
    const place = of.axes.indexOf(axis)
    const without = list => list.filter((_, index) => index !== place)
    const found = ["", member].flatMap(one => entries(of).filter(([members]) => members[place] === one))
    return spread(without(of.axes), found.map(([members, cell]) => [without(members), cell]))
  }

  function choose(condition, then, otherwise) {
    const cells = entries(condition).map(([, cell]) => cell)
    if (cells.length && cells.every(Cells.isKnown) && new Set(cells.map(Cells.holds)).size === 1) {
      return lift([condition, Cells.holds(cells[0]) ? then() : otherwise()], ([, cell]) => cell)
    }
    return lift([condition, then(), otherwise()], three => O.chosen(...three))
  }

  function call(name, parts, step, keep) {
    switch (name) {
      case "only": return lift(parts, ([cell, condition]) => O.filtered(cell, condition))
      case "abs": return lift(parts, ([cell]) => O.absolute(cell))
      case "sqrt": return lift(parts, ([cell]) => O.root(cell))
      case "next_up": return lift(parts, ([steps, x]) => O.nextUp(steps, x, step))
    }
    if (parts.length > 1) return lift(parts, cells => O.reduced(name, cells))
    const places = parts[0].axes.map((axis, place) => place).filter(place => keep.includes(parts[0].axes[place]))
    const groups = new Map(places.length ? [] : [["[]", [[], []]]])
    for (const [members, cell] of entries(parts[0])) {
      const kept = places.map(place => members[place])
      if (!groups.has(Cells.key(kept))) groups.set(Cells.key(kept), [kept, []])
      groups.get(Cells.key(kept))[1].push(cell)
    }
    const axes = places.map(place => parts[0].axes[place])
    return spread(axes, [...groups.values()].map(([kept, cells]) => [kept, O.reduced(name, cells)]))
  }

  return evaluate
})()
