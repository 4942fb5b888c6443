package declare_test

// Requests with uncertainties for the calculators of leaks.
var (
	_ = spreadOf("balance",
		pairs("reading", "600 mTorr ± 20 mTorr", "speed", "0.4 L/s ± 0.05 L/s", "blank-off", "25 mTorr", "leak", "0.1 mbar·L/s ± 10 %"),
		pairs("leak", "0.5 mbar·L/s ± 20 %", "speed", "1 m³/h", "blank-off", "3 Pa ± 1 Pa"))
	_ = spreadOf("hole",
		pairs("leak", "1 mbar·L/s ± 20 %", "altitude", "1600 m", "temperature", "20 °C ± 10 K"),
		pairs("leak", "0.05 mbar·L/s ± 10 %", "ambient", "970 mbar ± 5 mbar", "length", "3 mm ± 0.6 mm"),
		pairs("diameter", "50 µm ± 5 µm", "inside", "200 Torr ± 5 Torr"),
		pairs("diameter", "3 mm ± 0.2 mm", "inside", "30 kPa ± 5 kPa"))
	_ = spreadOf("test-plan",
		pairs("limit", "20 mTorr/min", "volume", "24 L ± 1 L", "start", "120 mTorr ± 5 mTorr"),
		pairs("limit", "0.002 Torr·L/s", "volume", "62 L ± 8 %", "start", "90 micron", "step", "5 mTorr"))
)
