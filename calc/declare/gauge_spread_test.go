package declare_test

// Requests of the gauge calculators for the Monte Carlo comparison.
var (
	_ = spreadOf("gauge-compare",
		pairs("readings", "machine mTorr,reference mTorr\n107,92\n267,250\n923,900", "reference-accuracy", "10 %"),
		pairs("readings", "machine mTorr,reference mTorr\n54,92\n147,250\n529,900\n820,1400", "reference-accuracy", "15 %", "machine-accuracy", "30 %"))
	_ = spreadOf("reading-jump",
		pairs("before", "212 mTorr", "after", "760,000 mTorr", "interval", "1 s", "volume", "62.0 L ± 2.5 L", "speed", "10.4 m³/h", "port", "10 mm", "altitude", "430 m ± 50 m"),
		pairs("before", "200 mTorr ± 20 mTorr", "after", "30,200 mTorr ± 3,000 mTorr", "interval", "1 s ± 0.1 s", "volume", "24 L", "speed", "5.1 m³/h ± 10 %", "port", "6 mm"),
		pairs("before", "47,300 mTorr ± 5,000 mTorr", "after", "209 mTorr ± 10 mTorr", "interval", "10 s", "volume", "62 L", "speed", "2.89 L/s ± 10 %", "ultimate", "18 mTorr ± 5 mTorr"))
	_ = spreadOf("gas-correction",
		pairs("reading", "617 mTorr", "water-low", "100 %"),
		pairs("reading", "617 mTorr ± 30 mTorr", "water-low", "50 %", "water-high", "90 %"),
		pairs("reading", "0.2 mbar", "other", "argon", "other-share", "40 % ± 5 %", "water-high", "0 %", "gauge", "15 %"))
	_ = spreadOf("tube-signal",
		pairs("curve", "signal mV,pressure mTorr\n9.28,10\n8.21,50\n7.20,100\n5.33,250\n3.84,500\n2.62,1000\n1.79,2000", "signal", "6.63 mV ± 0.05 mV", "current", "39.9 mA ± 0.3 mA", "nominal", "42 mA"),
		pairs("curve", "signal mV,pressure mTorr\n9.28,10\n8.21,50\n7.20,100\n5.33,250\n3.84,500\n2.62,1000\n1.79,2000", "signal", "4.5 mV", "step", "20 mTorr"))
)
