package declare_test

// Requests of the calculators of vapour and load for the Monte Carlo comparison.
var (
	_ = spreadOf("ice-floor",
		pairs("temperature", "-42 °C ± 2 K", "reading", "200 mTorr"),
		pairs("reading", "3 mbar ± 0.3 mbar", "principle", "capacitance"),
		pairs("temperature", "4 °C ± 2 K", "reading", "8 mbar ± 1 mbar", "principle", "capacitance"))
	_ = spreadOf("water-boil",
		pairs("pressure", "100 mTorr ± 20 %"), pairs("pressure", "950 mbar ± 20 mbar"), pairs("pressure", "20 mbar"),
		pairs("temperature", "-25 °C ± 2 K"), pairs("temperature", "60 °C ± 3 K"), pairs("temperature", "-70 °C"))
	_ = spreadOf("vapour-volume", pairs("mass", "3.6 kg ± 5 %", "pressure", "450 mTorr ± 20 %", "temperature", "10 °C ± 10 K", "time", "20 h ± 2 h"))
	_ = spreadOf("solvent-vapour",
		pairs("amount", "5 mL", "solvent", "isopropyl alcohol", "space", "30 m³", "place", "room"),
		pairs("amount", "5 mL ± 1 mL", "solvent", "ethanol", "space", "24 L", "place", "closed", "temperature", "25 °C ± 5 K", "ambient", "970 mbar ± 20 mbar", "lower", "3.3 % ± 0.3 %"))
	_ = spreadOf("ice-load", pairs("mass", "4.0 kg ± 0.2 kg", "water", "87 % ± 3 %", "residual", "4 % ± 2 %", "capacity", "3.6 kg ± 0.2 kg"))
	_ = spreadOf("drying-time",
		pairs("water", "3.6 kg ± 10 %", "power", "410 W ± 10 %", "share", "60 % ± 10 %", "ice", "-25 °C ± 3 K", "planned", "20 h ± 2 h"),
		pairs("water", "2.2 kg", "power", "1 kW", "port", "12 mm ± 1 mm", "ice", "-30 °C ± 2 K"),
		pairs("water", "2.2 kg", "speed", "30 L/s ± 20 %", "pressure", "200 mTorr ± 15 %"))
	_ = spreadOf("energy", pairs("power", "1,100 W", "time", "24 h ± 2 h", "price", "0.25 ± 0.05", "ice", "3.6 kg ± 0.3 kg", "temperature", "-34 °C ± 5 K"))
)
