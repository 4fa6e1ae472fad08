// A reading far from what can be there is queried, not refused. As procgen/check/jobs.py.
const Slips = (() => {
  "use strict"

  const FACTORS = [10, 0.1, 25.4, 1 / 25.4, 100, 0.01]
  const isWithin = (value, [low, high]) => low <= value && value <= high

  // Six digits at most, without noughts at the end.
  const brief = number => String(Number(number.toPrecision(6)))

  // What may have been meant: the same digits with two exchanged, or the point elsewhere; "" where nothing fits.
  function meant(text, symbol, units, bounds) {
    const base = number => Numbers.toBase(number, units[symbol])
    for (let at = 0; at < text.length - 1; at += 1) {
      const swapped = text.slice(0, at) + text[at + 1] + text[at] + text.slice(at + 2)
      const number = /^\d+(\.\d+)?$/.test(swapped) && Numbers.decimal(swapped)
      if (number && isWithin(base(number), bounds)) return swapped
    }
    const value = base(Numbers.decimal(text))
    const factor = FACTORS.find(one => isWithin(value * one, bounds))
    return factor ? brief(Numbers.nearest(Numbers.decimal(text)) * factor) : ""
  }

  return { meant }
})()
