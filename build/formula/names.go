package formula

// functions are set upright and take what follows.
var functions = map[string]bool{
	"ln": true, "exp": true, "log": true, "min": true, "max": true, "sin": true, "cos": true, "tan": true,
	"erf": true, "arcsin": true, "arccos": true, "arctan": true, "median": true, "mean": true, "sgn": true,
}

// longNames are the quantities that the trade writes with more than one letter.
var longNames = map[string]bool{"Kn": true, "Re": true, "AIC": true, "AICc": true, "RSS": true, "ppm": true}

// before a letter means a difference or a differential of it: Δp, dt.
const differences = "Δδd∂"

// sums are signs that take the whole product after them. The capital letters stand for
// the signs, because that is what a keyboard has.
var sums = map[rune]string{'Σ': "∑", '∑': "∑", 'Π': "∏", '∏': "∏", '∫': "∫"}

// fences are the brackets that come in pairs.
var fences = map[rune]rune{'(': ')', '[': ']', '⌈': '⌉', '⌊': '⌋'}

// relations part the sides of an equation, additions the terms, multiplications the factors.
const (
	relations       = "=≈≠≤≥<>≪≫∝→≡"
	additions       = "+−±∓"
	multiplications = "·×"
)

// alike are characters that mean another: a hyphen is a minus.
var alike = map[rune]rune{'-': '−', '⋅': '·', '∗': '*', '\'': '′', '\t': ' ', '\u00a0': ' ', '\u202f': ' ', '\u2009': ' ', '∆': 'Δ', '∣': '|'}

// lowered and raised hold characters with what they are when set normally.
var lowered = map[rune]rune{
	'₀': '0', '₁': '1', '₂': '2', '₃': '3', '₄': '4', '₅': '5', '₆': '6', '₇': '7', '₈': '8', '₉': '9', '₊': '+', '₋': '−',
	'ₐ': 'a', 'ₑ': 'e', 'ₕ': 'h', 'ᵢ': 'i', 'ⱼ': 'j', 'ₖ': 'k', 'ₗ': 'l', 'ₘ': 'm', 'ₙ': 'n', 'ₒ': 'o', 'ₚ': 'p', 'ᵣ': 'r', 'ₛ': 's', 'ₜ': 't', 'ᵤ': 'u', 'ᵥ': 'v', 'ₓ': 'x',
	'ᵦ': 'β', 'ᵧ': 'γ', 'ᵨ': 'ρ', 'ᵩ': 'φ', 'ᵪ': 'χ',
}

var raised = map[rune]rune{
	'⁰': '0', '¹': '1', '²': '2', '³': '3', '⁴': '4', '⁵': '5', '⁶': '6', '⁷': '7', '⁸': '8', '⁹': '9', '⁺': '+', '⁻': '−',
	'ⁱ': 'i', 'ⁿ': 'n', 'ᵃ': 'a', 'ᵇ': 'b', 'ᵏ': 'k', 'ᵐ': 'm', 'ᵗ': 't', 'ˣ': 'x',
}

// fractions are numbers of one character.
const fractions = "½¼¾⅓⅔⅛⅜⅝⅞"
