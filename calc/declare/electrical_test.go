package declare_test

var (
	_ = spreadOf("tube-check",
		pairs("construction", "joined", "leads", "0.2 Ω ± 0.1 Ω", "ab", "8.3 Ω ± 0.3 Ω", "ac", "10.9 Ω", "ad", "11.4 Ω", "bc", "11.2 Ω", "bd", "11.7 Ω", "cd", "14.3 Ω ± 0.2 Ω"),
	)
	_ = spreadOf("test-current",
		pairs("test", "3 V ± 0.1 V", "resistance", "8.1 Ω ± 0.5 Ω", "normal", "14.3 mW ± 1 mW"),
		pairs("test", "30 mA", "resistance", "14.5 Ω ± 1 Ω", "normal", "42 mA ± 2 mA"),
	)
	_ = spreadOf("meter",
		pairs("reading", "8.4 Ω ± 0.1 Ω", "reversed", "7.9 Ω ± 0.2 Ω", "leads", "0.3 Ω ± 0.05 Ω", "contact", "0.3 Ω"),
		pairs("reading", "8.1 Ω", "method", "four wires", "percent", "0.5 %", "counts", "10", "resolution", "0.01 Ω"),
	)
	_ = spreadOf("heater",
		pairs("cold", "37.4 Ω", "supply", "120 V ± 5 V", "card", "35.1 Ω ± 1 Ω"),
		pairs("cold", "35.1 Ω", "supply", "120 V", "power", "410 W"),
		pairs("cold", "10 Ω", "hot", "12.36 Ω", "supply", "12 V", "coefficient", "0.393 %"),
		pairs("cold", "10 Ω ± 0.1 Ω", "hot", "12.36 Ω ± 0.1 Ω", "supply", "12 V", "power", "12 W", "coefficient", "0.393 % ± 0.02 %", "cold-temperature", "20 °C ± 3 K"),
	)
	_ = spreadOf("cord-drop",
		pairs("length", "30 m ± 2 m", "conductor", "12 AWG", "current", "9.5 A ± 1 A", "supply", "120 V ± 5 V", "start", "28 A ± 3 A", "temperature", "35 °C ± 20 K"),
		pairs("length", "20 m", "conductor", "1.5 mm² ± 0.1 mm²", "current", "8.2 A", "supply", "230 V"),
	)
)
