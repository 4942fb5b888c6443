package declare_test

// Requests with uncertainties for the calculators of calc/pumping.
var (
	conductanceSpread = spreadOf("conductance",
		pairs("bore", "12 mm ± 0.3 mm", "length", "1.2 m ± 5 cm", "pressure", "500 mTorr ± 20 %", "gas", "water vapour", "temperature", "10 °C ± 8 K"))
	netSpeedSpread = spreadOf("net-speed",
		pairs("speed", "10.4 m³/h ± 10 %", "blank-off", "18 mTorr ± 4 mTorr", "line", "bore mm,length m\n16,1.5\n25,0.3", "pressure", "100 mTorr ± 15 %"),
		pairs("curve", "pressure mTorr,speed m³/h\n60,3\n1000,5.0\n760000,4.8", "blank-off", "20 mTorr ± 4 mTorr", "line", "bore mm,length m\n12,1.2", "pressure", "500 mTorr"))
	pumpDownSpread = spreadOf("pump-down",
		pairs("volume", "24 L ± 1 L", "speed", "5.1 m³/h ± 10 %", "blank-off", "25 mTorr ± 3 mTorr", "line", "bore mm,length m\n12,1.2", "leak", "0.006 mbar·L/s ± 20 %",
			"start", "1,013 mbar", "end", "500 mTorr"))
	pumpDownLogSpread = spreadOf("pump-down-log",
		pairs("log", "time min,pressure mTorr\n2,1750\n3,888\n5,370\n8,241\n12,186\n20,160\n30,148", "volume", "24 L",
			"expected", "time min,pressure mTorr\n1.5,4350\n2,1170\n3,358\n5,208\n8,156\n12,125\n20,97\n30,82", "gauge", "10 %"))
	blankOffSpread = spreadOf("blank-off",
		pairs("log", "time min,pressure mTorr\n25,44\n30,43", "limit", "45 mTorr", "ballast", "closed", "step", "5 mTorr"))
	reachedSpread = spreadOf("reached",
		pairs("reading", "140 mTorr ± 5 mTorr", "limit", "150 mTorr", "step", "5 mTorr"))
	oilLifeSpread = spreadOf("oil-life",
		pairs("hours", "150 h ± 10 h", "interval", "200 h", "wet-runs", "8 ± 2", "colour", "amber", "clarity", "clear", "amber", "20 % ± 10 %", "ballast", "3 h"))
)
