package formula_test

import (
	"errors"
	"strings"
	"testing"

	"blankoff/build/formula"
	"blankoff/calc"
)

// body is the MathML of a line without what surrounds every formula.
func body(t *testing.T, line string) string {
	t.Helper()
	l, err := formula.Parse(line)
	if err != nil {
		t.Fatalf("%s: %v", line, err)
	}
	text, found := strings.CutPrefix(l.MathML(), `<math display="block"><semantics>`)
	text, after, cut := strings.Cut(text, "<annotation")
	if !found || !cut || !strings.HasSuffix(after, "</annotation></semantics></math>") {
		t.Fatalf("%s: not set as one block: %s", line, l.MathML())
	}
	return text
}

// shown shortens MathML for the tables below: ⁢ is the invisible product, ⁡ the
// invisible 'of'.
var shown = strings.NewReplacer(`<mo lspace=".09em" rspace=".09em">`+"\u2062</mo>", "⋆", "<mo>\u2061</mo>", "ƒ", `<mo rspace=".17em">`+"\u2061</mo>", "ƒ ")

func TestEveryConstruct(t *testing.T) {
	for _, c := range []struct{ name, line, want string }{
		{"letter", "Q", "<mi>Q</mi>"},
		{"Greek letter", "λ", "<mi>λ</mi>"},
		{"number", "0.0065", "<mn>0.0065</mn>"},
		{"thousands", "101,325", "<mn>101,325</mn>"},
		{"number that begins with its point", ".5", "<mn>.5</mn>"},
		{"half", "½", "<mn>½</mn>"},
		{"per cent", "10 %", "<mrow><mn>10</mn><mo>%</mo></mrow>"},
		{"no end", "∞", "<mn>∞</mn>"},

		{"index in digits", "p₁", "<msub><mi>p</mi><mn>1</mn></msub>"},
		{"index of two digits", "p₁₂", "<msub><mi>p</mi><mn>12</mn></msub>"},
		{"index letter", "pₐ", "<msub><mi>p</mi><mi>a</mi></msub>"},
		{"index of a sum", "xₙ₊₁", "<msub><mi>x</mi><mrow><mi>n</mi><mo>+</mo><mn>1</mn></mrow></msub>"},
		{"index word", "S_eff", "<msub><mi>S</mi><mi>eff</mi></msub>"},
		{"index word with a digit", "S_eff2", "<msub><mi>S</mi><mi>eff2</mi></msub>"},
		{"index number", "C_0", "<msub><mi>C</mi><mn>0</mn></msub>"},
		{"index in brackets", "x_(i + 1)", "<msub><mi>x</mi><mrow><mi>i</mi><mo>+</mo><mn>1</mn></mrow></msub>"},
		{"star", "t*", "<msup><mi>t</mi><mo>*</mo></msup>"},
		{"prime", "p'", "<msup><mi>p</mi><mo>′</mo></msup>"},
		{"difference", "Δp", `<mrow><mi mathvariant="normal">Δ</mi><mi>p</mi></mrow>`},
		{"difference written with the other sign", "∆p", `<mrow><mi mathvariant="normal">Δ</mi><mi>p</mi></mrow>`},
		{"difference with index", "Δp₁", `<msub><mrow><mi mathvariant="normal">Δ</mi><mi>p</mi></mrow><mn>1</mn></msub>`},
		{"rate of change", "dp / dt", `<mfrac><mrow><mi mathvariant="normal">d</mi><mi>p</mi></mrow><mrow><mi mathvariant="normal">d</mi><mi>t</mi></mrow></mfrac>`},
		{"dot above, one character", "ṅ", `<mi class="slant">ṅ</mi>`},
		{"dot above, two characters", "n\u0307", "<mi class=\"slant\">n\u0307</mi>"},
		{"mean", "p\u0304₁", "<msub><mi class=\"slant\">p\u0304</mi><mn>1</mn></msub>"},
		{"d with an accent is no difference", "d\u0307", "<mi class=\"slant\">d\u0307</mi>"},
		{"name", "Kn", "<mi>Kn</mi>"},

		{"product with a blank", "V p", "<mrow><mi>V</mi>⋆<mi>p</mi></mrow>"},
		{"product of three", "a b c", "<mrow><mi>a</mi>⋆<mi>b</mi>⋆<mi>c</mi></mrow>"},
		{"product without a blank", "2k", "<mrow><mn>2</mn>⋆<mi>k</mi></mrow>"},
		{"product with a dot", "a · b", "<mrow><mi>a</mi><mo>·</mo><mi>b</mi></mrow>"},
		{"product with a cross", "2 × 3", "<mrow><mn>2</mn><mo>×</mo><mn>3</mn></mrow>"},
		{"product with a negative", "a × −b", "<mrow><mi>a</mi><mo>×</mo><mrow><mo>−</mo><mi>b</mi></mrow></mrow>"},
		{"product with a bracket", "V (a + b)", "<mrow><mi>V</mi>⋆<mrow><mo>(</mo><mrow><mi>a</mi><mo>+</mo><mi>b</mi></mrow><mo>)</mo></mrow></mrow>"},
		{"brackets side by side", "(a)(b)", "<mrow><mrow><mo>(</mo><mi>a</mi><mo>)</mo></mrow>⋆<mrow><mo>(</mo><mi>b</mi><mo>)</mo></mrow></mrow>"},

		{"fraction", "a / b", "<mfrac><mi>a</mi><mi>b</mi></mfrac>"},
		{"fraction of a product", "a b / c", "<mfrac><mrow><mi>a</mi>⋆<mi>b</mi></mrow><mi>c</mi></mfrac>"},
		{"stroke from the left", "a / b c", "<mrow><mfrac><mi>a</mi><mi>b</mi></mfrac>⋆<mi>c</mi></mrow>"},
		{"two strokes", "a / b / c", "<mfrac><mrow><mi>a</mi><mo>/</mo><mi>b</mi></mrow><mi>c</mi></mfrac>"},
		{"fraction in brackets as a factor", "(a / b) c", "<mrow><mfrac><mi>a</mi><mi>b</mi></mfrac>⋆<mi>c</mi></mrow>"},
		{"fraction in brackets with an exponent", "(a / b)² c", "<mrow><msup><mrow><mo>(</mo><mfrac><mi>a</mi><mi>b</mi></mfrac><mo>)</mo></mrow><mn>2</mn></msup>⋆<mi>c</mi></mrow>"},
		{"fraction in a root", "√(a b / (c d))", "<msqrt><mrow><mrow><mi>a</mi>⋆<mi>b</mi></mrow><mo>/</mo><mrow><mo>(</mo><mrow><mi>c</mi>⋆<mi>d</mi></mrow><mo>)</mo></mrow></mrow></msqrt>"},
		{"fraction in a product below", "a / (b / c d)", "<mfrac><mi>a</mi><mrow><mrow><mo>(</mo><mrow><mi>b</mi><mo>/</mo><mi>c</mi></mrow><mo>)</mo></mrow>⋆<mi>d</mi></mrow></mfrac>"},
		{"sum of terms above a stroke", "x^((a + b) / c)", "<msup><mi>x</mi><mrow><mrow><mo>(</mo><mrow><mi>a</mi><mo>+</mo><mi>b</mi></mrow><mo>)</mo></mrow><mo>/</mo><mi>c</mi></mrow></msup>"},
		{"function below a stroke", "x^(a / ln b)", "<msup><mi>x</mi><mrow><mi>a</mi><mo>/</mo><mrow><mo>(</mo><mrow><mi>ln</mi>ƒ <mi>b</mi></mrow><mo>)</mo></mrow></mrow></msup>"},
		{"product below", "a / (b c)", "<mfrac><mi>a</mi><mrow><mi>b</mi>⋆<mi>c</mi></mrow></mfrac>"},
		{"brackets above and below go", "(a + b) / (c − d)", "<mfrac><mrow><mi>a</mi><mo>+</mo><mi>b</mi></mrow><mrow><mi>c</mi><mo>−</mo><mi>d</mi></mrow></mfrac>"},
		{"brackets with an exponent stay", "(a + b)² / c", "<mfrac><msup><mrow><mo>(</mo><mrow><mi>a</mi><mo>+</mo><mi>b</mi></mrow><mo>)</mo></mrow><mn>2</mn></msup><mi>c</mi></mfrac>"},
		{"negative below", "a / −b", "<mfrac><mi>a</mi><mrow><mo>−</mo><mi>b</mi></mrow></mfrac>"},
		{"stroke without blanks", "2 d/√6", "<mfrac><mrow><mn>2</mn>⋆<mi>d</mi></mrow><msqrt><mn>6</mn></msqrt></mfrac>"},

		{"square", "x²", "<msup><mi>x</mi><mn>2</mn></msup>"},
		{"inverse", "x⁻¹", "<msup><mi>x</mi><mrow><mo>−</mo><mn>1</mn></mrow></msup>"},
		{"power", "x^n", "<msup><mi>x</mi><mi>n</mi></msup>"},
		{"power of a number", "x^5.25588", "<msup><mi>x</mi><mn>5.25588</mn></msup>"},
		{"negative power", "10^−6", "<msup><mn>10</mn><mrow><mo>−</mo><mn>6</mn></mrow></msup>"},
		{"power in brackets", "e^(−t / τ)", "<msup><mi>e</mi><mrow><mo>−</mo><mrow><mi>t</mi><mo>/</mo><mi>τ</mi></mrow></mrow></msup>"},
		{"index and power", "p₁²", "<msubsup><mi>p</mi><mn>1</mn><mn>2</mn></msubsup>"},
		{"power and index", "p²₁", "<msubsup><mi>p</mi><mn>1</mn><mn>2</mn></msubsup>"},
		{"root of a number", "√6", "<msqrt><mn>6</mn></msqrt>"},
		{"root of a bracket", "√(a + b)", "<msqrt><mrow><mi>a</mi><mo>+</mo><mi>b</mi></mrow></msqrt>"},
		{"root of a square", "√x²", "<msqrt><msup><mi>x</mi><mn>2</mn></msup></msqrt>"},

		{"sum of terms", "a + b − c", "<mrow><mi>a</mi><mo>+</mo><mi>b</mi><mo>−</mo><mi>c</mi></mrow>"},
		{"a hyphen is a minus", "a - b", "<mrow><mi>a</mi><mo>−</mo><mi>b</mi></mrow>"},
		{"a sign in front", "−a ± b", "<mrow><mo>−</mo><mi>a</mi><mo>±</mo><mi>b</mi></mrow>"},
		{"equation", "a = b = c", "<mrow><mi>a</mi><mo>=</mo><mi>b</mi><mo>=</mo><mi>c</mi></mrow>"},
		{"smaller", "a < b", "<mrow><mi>a</mi><mo>&lt;</mo><mi>b</mi></mrow>"},
		{"other relations", "a ≈ b ≤ c ≥ d > e ≠ f ∝ g → h", "<mrow><mi>a</mi><mo>≈</mo><mi>b</mi><mo>≤</mo><mi>c</mi><mo>≥</mo><mi>d</mi><mo>&gt;</mo><mi>e</mi><mo>≠</mo><mi>f</mi><mo>∝</mo><mi>g</mi><mo>→</mo><mi>h</mi></mrow>"},
		{"and so on", "a + … + b", "<mrow><mi>a</mi><mo>+</mo><mo>…</mo><mo>+</mo><mi>b</mi></mrow>"},

		{"function", "ln(x)", "<mrow><mi>ln</mi>ƒ<mrow><mo>(</mo><mi>x</mi><mo>)</mo></mrow></mrow>"},
		{"function without brackets", "a ln x / y", "<mfrac><mrow><mi>a</mi>⋆<mrow><mi>ln</mi>ƒ <mi>x</mi></mrow></mrow><mi>y</mi></mfrac>"},
		{"function with a blank", "exp (x)", "<mrow><mi>exp</mi>ƒ<mrow><mo>(</mo><mi>x</mi><mo>)</mo></mrow></mrow>"},
		{"function with an index", "log₁₀(x)", "<mrow><msub><mi>log</mi><mn>10</mn></msub>ƒ<mrow><mo>(</mo><mi>x</mi><mo>)</mo></mrow></mrow>"},
		{"own function", "U(Q)²", "<msup><mrow><mi>U</mi>ƒ<mrow><mo>(</mo><mi>Q</mi><mo>)</mo></mrow></mrow><mn>2</mn></msup>"},
		{"two arguments", "max(a, b)", "<mrow><mi>max</mi>ƒ<mrow><mo>(</mo><mrow><mi>a</mi><mo>,</mo><mi>b</mi></mrow><mo>)</mo></mrow></mrow>"},
		{"argument with a relation", "p(t = 0)", "<mrow><mi>p</mi>ƒ<mrow><mo>(</mo><mrow><mi>t</mi><mo>=</mo><mn>0</mn></mrow><mo>)</mo></mrow></mrow>"},

		{"sum", "Σ a", "<mrow><mo>∑</mo><mi>a</mi></mrow>"},
		{"sum takes the product after it", "2 Σ a / b + c", "<mrow><mrow><mn>2</mn>⋆<mrow><mo>∑</mo><mfrac><mi>a</mi><mi>b</mi></mfrac></mrow></mrow><mo>+</mo><mi>c</mi></mrow>"},
		{"sum over", "Σᵢ xᵢ", "<mrow><msub><mo>∑</mo><mi>i</mi></msub><msub><mi>x</mi><mi>i</mi></msub></mrow>"},
		{"sum from to", "Σ_(i = 1)^n xᵢ", "<mrow><msubsup><mo>∑</mo><mrow><mi>i</mi><mo>=</mo><mn>1</mn></mrow><mi>n</mi></msubsup><msub><mi>x</mi><mi>i</mi></msub></mrow>"},
		{"sum up to", "Σ^n x", "<mrow><msup><mo>∑</mo><mi>n</mi></msup><mi>x</mi></mrow>"},
		{"product over", "∏ᵢ xᵢ", "<mrow><msub><mo>∏</mo><mi>i</mi></msub><msub><mi>x</mi><mi>i</mi></msub></mrow>"},
		{"integral", "∫_a^b x dx", `<mrow><msubsup><mo>∫</mo><mi>a</mi><mi>b</mi></msubsup><mrow><mi>x</mi>⋆<mrow><mi mathvariant="normal">d</mi><mi>x</mi></mrow></mrow></mrow>`},

		{"magnitude", "|x|", "<mrow><mo>|</mo><mi>x</mi><mo>|</mo></mrow>"},
		{"magnitude in a product", "a |x − y| b", "<mrow><mi>a</mi>⋆<mrow><mo>|</mo><mrow><mi>x</mi><mo>−</mo><mi>y</mi></mrow><mo>|</mo></mrow>⋆<mi>b</mi></mrow>"},
		{"magnitude in a bracket in a magnitude", "|a (|b|)|", "<mrow><mo>|</mo><mrow><mi>a</mi>⋆<mrow><mo>(</mo><mrow><mo>|</mo><mi>b</mi><mo>|</mo></mrow><mo>)</mo></mrow></mrow><mo>|</mo></mrow>"},
		{"square brackets", "[a]²", "<msup><mrow><mo>[</mo><mi>a</mi><mo>]</mo></mrow><mn>2</mn></msup>"},
		{"rounded up", "⌈x⌉", "<mrow><mo>⌈</mo><mi>x</mi><mo>⌉</mo></mrow>"},
		{"rounded down", "⌊x⌋", "<mrow><mo>⌊</mo><mi>x</mi><mo>⌋</mo></mrow>"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := shown.Replace(body(t, c.line)); got != c.want {
				t.Errorf("%s\n got %s\nwant %s", c.line, got, c.want)
			}
		})
	}
}

func TestWordsFollowTheFormula(t *testing.T) {
	for _, c := range []struct{ line, plain, words string }{
		{"Q = V p / t", "Q = V p / t", ""},
		{" Q = V p / t ; V in litres; t in seconds ", "Q = V p / t", "V in litres; t in seconds"},
		{"a < b; <b>bold & bare</b>", "a < b", "<b>bold & bare</b>"},
	} {
		l, err := formula.Parse(c.line)
		if err != nil || l.Plain != c.plain || l.Words != c.words {
			t.Errorf("%q: got %+v, %v", c.line, l, err)
		}
	}
}

// What a browser without MathML shows, and what can be copied, is the line itself.
func TestPlainLineGoesWithTheFormula(t *testing.T) {
	l, err := formula.Parse("a < b / c; in words")
	if err != nil {
		t.Fatal(err)
	}
	const want = `<annotation encoding="text/plain">a &lt; b / c</annotation>`
	if got := l.MathML(); !strings.Contains(got, want) {
		t.Errorf("%s lacks %s", got, want)
	}
}

func TestWhatCannotBeReadSaysWhereAndWhatToDo(t *testing.T) {
	for _, c := range []struct {
		name, line, at string // at: the rest of the line from where the fault is
		advice         string
	}{
		{"nothing", "", "", "write one"},
		{"only words", "; what it is", "; what it is", "write one"},
		{"unit", "p = 101,325 Pa", "Pa", "units and words after a semicolon"},
		{"sentence", "H = z with z in m", "with z in m", "units and words after a semicolon"},
		{"product without a blank", "Vp / t", "Vp / t", "a product with a blank"},
		{"digit after a letter", "V1 + a", "1 + a", "V_1 or 1 V"},
		{"comma between formulas", "a = b, c = d", ", c = d", "on a line of its own"},
		{"bracket not closed", "a (b + c", "(b + c", "write “)”"},
		{"wrong bracket", "a (b + c]", "(b + c]", "write “)”"},
		{"bracket not opened", "a + b)", ")", "open a bracket before it"},
		{"bar not closed", "a |b", "|b", "write “|”"},
		{"empty brackets", "f()", ")", "open a bracket before it"},
		{"ends too early", "a +", "", "a quantity or a number is missing"},
		{"two signs", "a × / b", "/ b", "a quantity or a number is missing before it"},
		{"relation in front", "= b", "= b", "a quantity or a number is missing before it"},
		{"exponent in front", "² a", "² a", "a quantity or a number is missing before it"},
		{"exponent apart", "a ² b", "² b", "without a blank before it"},
		{"index apart", "a _(b) c", "_(b) c", "without a blank before it"},
		{"power of nothing", "a^+", "", "x^(a + b)"},
		{"index of nothing", "a_ b", "_ b", "after a semicolon"},
		{"two indices (found by fuzzing)", "∫_0_0 a", "_0 a", "brackets"},
		{"two exponents", "t*²", "²", "brackets"},
		{"function of nothing", "a ln + b", "ln + b", "ln(x)"},
		{"star as a product", "a * b", "* b", "a · b"},
		{"star as a product without blanks", "a*b", "*b", "a · b"},
		{"number with two points", "1.2.3", ".3", "a fraction as 0.0065"},
		{"decimal comma", "a = 0,02", ",02", "on a line of its own"},
		{"degree sign", "T = 20 °C", "°C", "after a semicolon"},
		{"colon", "a : b", ": b", "after a semicolon"},
		{"backslash", `\frac{a}{b}`, `\frac{a}{b}`, "after a semicolon"},
		{"control character (found by fuzzing)", "0\v0", "\v0", "after a semicolon"},
		{"element", "a<script>", "script>", "a product with a blank"},
		{"not UTF-8", "a = \xff", "a = \xff", "UTF-8"},
		{"too deep", strings.Repeat("(", 60) + "a" + strings.Repeat(")", 60), strings.Repeat("(", 20) + "a" + strings.Repeat(")", 60), "a line of its own"},
		{"too long", strings.Repeat("a ", 600), strings.Repeat("a ", 100), "several lines"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := formula.Parse(c.line)
			var problem *formula.Problem
			if !errors.As(err, &problem) {
				t.Fatalf("%s: got %v, want a problem", c.line, err)
			}
			if got := c.line[problem.At:]; got != c.at {
				t.Errorf("%s: fault at %q, want %q (%s)", c.line, got, c.at, problem.Text)
			}
			if !strings.Contains(problem.Text, c.advice) {
				t.Errorf("%s: %q does not say %q", c.line, problem.Text, c.advice)
			}
		})
	}
}

// The line of every calculator can be set; what cannot be belongs behind a semicolon.
func TestEveryCalculatorsFormulaIsSet(t *testing.T) {
	for _, c := range calc.All() {
		for _, line := range c.Formula {
			_, err := formula.Parse(line)
			var problem *formula.Problem
			if errors.As(err, &problem) {
				t.Errorf("%s: %s\n\tat %q: %s", c.ID, line, line[problem.At:], problem.Text)
			}
		}
	}
}
