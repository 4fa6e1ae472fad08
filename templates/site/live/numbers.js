// Exact numbers: what a float says as a fraction, fractions to the nearest float, and figures as they print. Fractions are
// [numerator, denominator] of BigInt, the denominator above 0. The same rules as procgen/units/printing.py.
const Numbers = (() => {
  "use strict"

  const MINUS = "\u2212"
  const RELATIVE = 1e-9
  const abs = n => n < 0n ? -n : n

  function gcd(a, b) {
    while (b) [a, b] = [b, a % b]
    return a
  }

  function fraction(numerator, denominator = 1n) {
    if (denominator < 0n) [numerator, denominator] = [-numerator, -denominator]
    const common = gcd(abs(numerator), denominator) || 1n
    return [numerator / common, denominator / common]
  }

  const add = ([a, b], [c, d]) => fraction(a * d + c * b, b * d)
  const less = ([a, b], [c, d]) => fraction(a * d - c * b, b * d)
  const times = ([a, b], [c, d]) => fraction(a * c, b * d)
  const over = ([a, b], [c, d]) => fraction(a * d, b * c)
  const isUnder = ([a, b], [c, d]) => a * d < c * b

  const bits = new DataView(new ArrayBuffer(8))

  // Exactly what a float says.
  function exact(value) {
    bits.setFloat64(0, value)
    const word = bits.getBigUint64(0)
    const exponent = Number((word >> 52n) & 0x7ffn)
    const stored = word & 0xfffffffffffffn
    const whole = exponent ? stored | 0x10000000000000n : stored
    const power = (exponent || 1) - 1075
    const signed = word >> 63n ? -whole : whole
    return power >= 0 ? [signed << BigInt(power), 1n] : fraction(signed, 1n << BigInt(-power))
  }

  const bitLength = n => n.toString(2).length

  // The float nearest to a fraction, a tie to the even one; for the sizes that a shop meets.
  function nearest([numerator, denominator]) {
    if (!numerator) return 0
    const size = abs(numerator)
    let shift = 54 - (bitLength(size) - bitLength(denominator))
    const scaled = shift >= 0 ? size << BigInt(shift) : size
    const under = shift >= 0 ? denominator : denominator << BigInt(-shift)
    let found = scaled / under
    const rest = scaled % under
    while (found >= 1n << 53n) { // keep one bit and a trace of what is cut off
      const cut = bitLength(found) - 53
      const half = 1n << BigInt(cut - 1)
      const low = found & ((1n << BigInt(cut)) - 1n)
      found >>= BigInt(cut)
      shift -= cut
      if (low > half || (low === half && (rest || found & 1n))) found += 1n
    }
    const value = Number(found) * 2 ** -shift
    return numerator < 0n ? -value : value
  }

  function floor([a, b]) {
    const whole = a / b
    return a % b && a < 0n ? whole - 1n : whole
  }

  const ceil = ([a, b]) => -floor([-a, b])

  // The nearest whole number, a tie to the even one.
  function halfEven(number) {
    const below = floor(number)
    const [rest, of] = less(number, [below, 1n])
    const twice = 2n * rest
    return twice > of || (twice === of && below & 1n) ? below + 1n : below
  }

  // "98.40", "1/4", "1 13/64", with - or a true minus, as a fraction; null where it is no number.
  function decimal(text) {
    const found = /^([-\u2212]?)(?:(\d{1,12})(?:[.,](\d{1,12}))?|(?:(\d{1,6}) )?(\d{1,6})\/(\d{1,6}))$/.exec(text.trim())
    if (!found) return null
    const [, sign, whole, decimals = "", inches = "0", over_, under] = found
    if (under !== undefined && (BigInt(under) === 0n || BigInt(over_) >= BigInt(under))) return null
    const number = under === undefined
      ? fraction(BigInt(whole + decimals), 10n ** BigInt(decimals.length))
      : add([BigInt(inches), 1n], fraction(BigInt(over_), BigInt(under)))
    return sign ? [-number[0], number[1]] : number
  }

  // A number in a unit, [numerator, denominator] of its factor and of its offset in texts, then what it measures, as a float in base units.
  function toBase(number, unit) {
    const [a, b, c, d] = unit.slice(0, 4).map(BigInt)
    return nearest(add(times(number, [a, b]), [c, d]))
  }

  function fromBase(value, unit) {
    const [a, b, c, d] = unit.slice(0, 4).map(BigInt)
    return over(less(exact(value), [c, d]), [a, b])
  }

  // Whether two floats are the same as far as any verdict goes; a step of 0 is a share of the larger.
  function equal(a, b, step) {
    return a === b || Math.abs(a - b) < (step || RELATIVE * Math.max(Math.abs(a), Math.abs(b)))
  }

  const isLess = (a, b, step) => a < b && !equal(a, b, step)
  const atMost = (a, b, step) => a < b || equal(a, b, step)

  // A float in base units as text: show is [step, symbol, unit's name, comparison's step, on a clock face].
  function shown(value, show, units, towards = "even") {
    const [text, , name, least, clock] = show
    const unit = units[name]
    const step = decimal(text)
    const sixty = clock ? [60n, 1n] : [1n, 1n]
    const noise = times(over(exact(least || RELATIVE * Math.abs(value)), [BigInt(unit[0]), BigInt(unit[1])]), sixty)
    const steps = over(snapped(times(fromBase(value, unit), sixty), noise), step)
    const even = halfEven(steps)
    const off = times(less(steps, [even, 1n]), step)
    let count = even
    if (towards !== "even" && !isUnder([abs(off[0]), off[1]], noise)) count = towards === "up" ? ceil(steps) : floor(steps)
    return clock ? onClock(times([count, 1n], step)) : written(count, text)
  }

  // A float stands a hair beside the decimal it came from: snapped to decimals of a thousandth of the noise.
  function snapped(number, noise) {
    if (!noise[0]) return number
    const power = Math.floor(Math.log10(nearest(over(noise, [1000n, 1n]))))
    const grid = power >= 0 ? [10n ** BigInt(power), 1n] : [1n, 10n ** BigInt(-power)]
    return times([halfEven(over(number, grid)), 1n], grid)
  }

  function written(count, step) {
    const places = (step.split(".")[1] || "").length
    const [numerator, denominator] = times([abs(count), 1n], decimal(step))
    const digits = (numerator * 10n ** BigInt(places) / denominator).toString().padStart(places + 1, "0")
    const text = places ? `${digits.slice(0, -places)}.${digits.slice(-places)}` : digits
    return count < 0n ? MINUS + text : text
  }

  function onClock([numerator, denominator]) {
    const minutes = Number((((numerator / denominator) % 720n) + 720n) % 720n)
    return `${Math.floor(minutes / 60) || 12}:${String(minutes % 60).padStart(2, "0")}`
  }

  return { MINUS, exact, nearest, decimal, toBase, fromBase, equal, isLess, atMost, shown, over, times, isUnder }
})()
