package calc_test

// Logs that reach each branch: straight and clipped, with outliers and blanks, vapour
// alone, one whose shape is not told, and one in SI units with a limit on the leak rate.
var _ = work("rise-log",
	pairs("log", "time s,pressure mTorr\n0,327\n30,508\n60,688\n90,868\n120,1049\n150,1218\n180,1415\n210,1591\n240,1779\n270,1961\n300,2152\n330,2317\n360,2506",
		"volume", "62 L ± 2.5 L", "limit", "8 mTorr/min"),
	pairs("log", "time min;pressure mTorr\n0;701\n1;715\n2;729\n3;744\n4;795\n5;774\n6;791\n7;806\n8;\n9;833\n10;850\n11;866\n12;881",
		"volume", "24 L", "limit", "16 mTorr/min", "gauge", "5 %"),
	pairs("log", "time s,pressure Pa\n0,13.3\n60,20.7\n120,25.3\n180,28.0\n240,29.6\n300,30.7\n360,31.2\n420,31.6\n480,31.9\n540,31.9\n600,32.1\n660,32.0\n720,32.1",
		"volume", "17.5 L ± 0.7 L", "limit", "0.0058 mbar·L/s", "step", "0.1 Pa"),
	pairs("log", "time min,pressure mTorr\n0,100\n1,108\n2,117\n3,123\n4,131\n5,135\n6,143\n7,146\n8,152\n9,155\n10,161",
		"volume", "24 L ± 1 L", "limit", "5 mTorr/min"),
)
