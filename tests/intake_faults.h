/* Faulty files and what is told of each: lines of "LINE: COLUMN: text", the column of a whole
 * row "-".  Part of check_intake.c, which has the good files beside them.
 * SPDX-License-Identifier: GPL-3.0-or-later */
static const struct {
	enum kind_of_file file;
	const char *bytes;
	size_t n;
	const char *faults;
} faulty[] = {
	/* ---- the CSV layer ---- */
	{POINTS,
	 BYTES("point,x_m,y_m,fixed\n"
	       "p1,1,2,yes,\n"
	       "p2,1\n"
	       "p3,1,2,maybe\n"),
	 "3: -: 2 fields in this row: 4, as in the header\n"
	 "4: fixed: \"maybe\" is neither: yes or no\n"},
	{POINTS,
	 BYTES("point;x_m;y_m;fixed\n"
	       "p1;1;2,5,5;yes\n"
	       "p2;1,5;2;yes\n"),
	 "2: y_m: \"2,5,5\" is not a number: a number from -100000000 to 100000000 m\n"},
	{POINTS,
	 BYTES("p1,1,2,yes\n"
	       "p2,3,4,no\n"),
	 "1: -: no header row with the names of the columns: the columns are point, x_m, "
	 "y_m, fixed\n"},
	{POINTS,
	 BYTES(POINTS_HEAD "p1,1,2,yes\n"
			   "\"p2,1,2,yes\n"
			   "p3,1,2,yes\n"),
	 "3: point: a quote is opened and not closed: a field in quotes ends with a quote\n"},
	{POINTS, BYTES(POINTS_HEAD "p1,1,\"2,yes\n"),
	 "2: y_m: a quote is opened and not closed: a field in quotes ends with a quote\n"},
	{POINTS,
	 BYTES(POINTS_HEAD "p1,1,2,ye\"s\n"
			   "\"p2\" ,1,2,yes\n"
			   "p3,1,2,nope\n"),
	 "2: fixed: a quote in the middle of a field: the whole field in quotes, and a "
	 "quote inside it written twice\n"
	 "3: point: a quote in the middle of a field: the whole field in quotes, and a "
	 "quote inside it written twice\n"
	 "4: fixed: \"nope\" is neither: yes or no\n"},
	{POINTS,
	 BYTES(POINTS_HEAD "p1,\"1\n"
			   "1\",2,yes\n"
			   "p2,1,x,yes\n"),
	 "2: x_m: \"1\\n1\" is not a number: a number from -100000000 to 100000000 m\n"
	 "4: y_m: \"x\" is not a number: a number from -100000000 to 100000000 m\n"},
	{POINTS,
	 BYTES(POINTS_HEAD "p\0x,1,2,yes\n"
			   "p2,1,2,y\x1B[2Js\n"),
	 "2: point: \"p\" holds a NUL byte: plain text, saved as UTF-8\n"
	 "3: fixed: \"y\\x1B[2Js\" holds a control character: plain text\n"},
	{POINTS,
	 BYTES(POINTS_HEAD "\xC2\x9Bm,1,2,yes\n"
			   "p\xE9g,a,2,yes\n"),
	 "2: point: \"\\xC2\\x9Bm\" holds a control character: plain text\n"
	 "3: point: \"p\\xE9g\" is not UTF-8: save the file as UTF-8\n"
	 "3: x_m: \"a\" is not a number: a number from -100000000 to 100000000 m\n"},
	{POINTS, BYTES(POINTS_HEAD "p\x81g,1,2,yes\n"),
	 "2: point: \"p\\x81g\" is not UTF-8: save the file as UTF-8\n"},
	{POINTS,
	 BYTES("point,x_m,y_m,fix\xE9\n"
	       "p1,1,2,yes\n"),
	 "1: fix\u00e9: unknown column \"fix\u00e9\": the columns are point, x_m, y_m, fixed\n"
	 "1: fixed: missing column: the columns are point, x_m, y_m, fixed\n"},
	{POINTS,
	 BYTES(POINTS_HEAD "a\tb,1,2,yes\n"
			   "\"a\n"
			   "b\",1,2,yes\n"),
	 "2: point: \"a\\tb\" holds a line break or a tab: text on one line\n"
	 "3: point: \"a\\nb\" holds a line break or a tab: text on one line\n"},
	/* ---- the header ---- */
	{MARKS,
	 BYTES("class,numbr,judge,item,judge,Mark,x\n"
	       "one,seven,B,1,C,6,\n"),
	 "1: numbr: unknown column \"numbr\": did you mean \"number\"? (the columns are "
	 "class, number, judge, item, mark, [remark])\n"
	 "1: judge: doubled column: \"judge\" is there already: the columns are class, "
	 "number, judge, item, mark, [remark]\n"
	 "1: x: unknown column \"x\": the columns are class, number, judge, item, mark, "
	 "[remark]\n"},
	{ENTRIES,
	 BYTES("class,number,driver,Rider,horses,height_cm,turnout,groom,club\n"
	       "one,1,P,P,Sol,,,,\n"
	       "one,2,P,,Sol,,,,\n"
	       "one,3,,P,Sol,,,,\n"
	       "one,4,P,Q,Sol,,,,\n"
	       "one,5,,,Sol,,,,\n"),
	 "5: Rider: \"Q\", but driver says \"P\": one of them empty\n"
	 "6: driver: empty: this column is filled in each row\n"},
	{MARKS,
	 BYTES("class,number,judge,item,mark,Mark\n"
	       "one,7,B,1,6,\n"),
	 "1: Mark: doubled column: \"mark\" is there already: the columns are class, number, "
	 "judge, item, mark, [remark]\n"},
	{ENTRIES,
	 BYTES("class,number,horses,height_cm,turnout,groom,,club,,\n"
	       "one,0,Sol,,,,,,,\n"),
	 "1: -: column 7 has no name: the columns are class, number, driver or rider, "
	 "horses, height_cm, turnout, [carriage], groom, club, [division], "
	 "[hors_concours], [status]\n"
	 "1: driver: missing column: the columns are class, number, driver or rider, "
	 "horses, height_cm, turnout, [carriage], groom, club, [division], "
	 "[hors_concours], [status]\n"
	 "2: number: \"0\" is out of range: a whole number from 1 to 99999\n"},
	{READINGS,
	 BYTES("FROM,To,Distance-M\n"
	       "A,Z,80\n"),
	 "2: To: unknown letter \"Z\": a letter or corner of field: A, AK, HC, C, CM, B, FA, X\n"},
	/* ---- fields: empty, numbers, words ---- */
	{POINTS,
	 BYTES(POINTS_HEAD ",,,\n"
			   "p1,,2,\n"),
	 "3: x_m: empty: this column is filled in each row\n"
	 "3: fixed: empty: this column is filled in each row\n"},
	{POINTS,
	 BYTES(POINTS_HEAD "p1,1e9,0x10,Yea\n"
			   "p2,\"1,5\",nan,no\n"
			   "p1,1,2,no\n"
			   "p1,1,2,no\n"),
	 "2: x_m: \"1e9\" is out of range: a number from -100000000 to 100000000 m\n"
	 "2: y_m: \"0x10\" is not a number: a number from -100000000 to 100000000 m\n"
	 "2: fixed: \"Yea\" is neither: yes or no\n"
	 "3: x_m: \"1,5\" has a decimal comma, not a decimal point: a number from "
	 "-100000000 to 100000000 m\n"
	 "3: y_m: \"nan\" is not a number: a number from -100000000 to 100000000 m\n"
	 "4: point: \"p1\" is there already, in line 2: each point once\n"
	 "5: point: \"p1\" is there already, in line 2: each point once\n"},
	{GAITS,
	 BYTES(GAITS_HEAD "trot,-3,2.7,own\n"
			  "trot,3.6,,\n"),
	 "2: speed_m_per_s: \"-3\" is out of range: a number from 0.1 to 20 m/s\n"
	 "3: stride_m: empty: this column is filled in each row\n"
	 "3: source: empty: this column is filled in each row\n"
	 "3: gait: \"trot\" is there already, in line 2: each gait once\n"},
	{LEVELS,
	 BYTES(LEVELS_HEAD "novice,drivn,20,14.4hh,Trot\n"
			   "novice,driven,0,30,gallop\n"
			   "novice,driven,20,14hh,trot\n"
			   "novice,ridden,20,14hh,trot\n"),
	 "2: discipline: unknown discipline \"drivn\": did you mean \"driven\"? (ridden, "
	 "driven)\n"
	 "2: reference_height_cm: \"14.4hh\" is not a height: 132cm, 1.32m, 13hh or "
	 "13.2hh (13 hands 2 inches; 0 to 3 inches), from 40 to 220 cm\n"
	 "2: gait: unknown gait \"Trot\": did you mean \"trot\"? (walk, trot)\n"
	 "3: turn_diameter_m: \"0\" is out of range: a number from 1 to 100 m\n"
	 "3: reference_height_cm: \"30\" is not a height: 132cm, 1.32m, 13hh or 13.2hh "
	 "(13 hands 2 inches; 0 to 3 inches), from 40 to 220 cm\n"
	 "3: gait: unknown gait \"gallop\": walk, trot\n"
	 "4: level: \"novice\" is there already, in line 3: each level of a discipline "
	 "once\n"},
	{TURNOUTS,
	 BYTES(TURNOUTS_HEAD "gig,horse,21,0,9,x,\n"
			     "gig,horse,0,1,1,,\n"),
	 "2: hitch_m: \"21\" is out of range: a number from -20 to 20 m\n"
	 "2: length_m: \"0\" is out of range: a number from 0.1 to 20 m\n"
	 "2: width_m: \"9\" is out of range: a number from 0.1 to 5 m\n"
	 "2: track_m: \"x\" is not a number: a number from 0.1 to 5 m\n"
	 "3: part: \"horse\" is there already, in line 2: each part of a turnout once\n"},
	{FOOTINGS,
	 BYTES(FOOTINGS_HEAD "flat,ridden,0.5,0.8,0.2,,a book\n"
			     "none,ridden,0.5,,,,a book\n"
			     "good,ridden,0.5,,0.2,,a book\n"
			     "good,driven,0.6,,0.2,,a book\n"
			     "wet,swum,0,,x,,a book\n"),
	 "2: along_m: two limits are given: one of the two, in metres or in per cent\n"
	 "3: across_m: no limit is given: one of the two, in metres or in per cent\n"
	 "5: footing: \"good\" is there already, in line 4: each rule once\n"
	 "6: discipline: unknown discipline \"swum\": ridden, driven\n"
	 "6: along_m: \"0\" is out of range: a number from 0.01 to 20 m\n"
	 "6: across_m: \"x\" is not a number: a number from 0.01 to 20 m\n"},
	{ENTRIES,
	 BYTES(ENTRIES_HEAD "one,99999999999999999999,P,Sol,,,,,,,,\n"
			    "one,1e2,P,Sol,,,,,,,,\n"
			    "one,\"1,0\",P,Sol,,,,,,,,\n"),
	 "2: number: \"99999999999999999999\" is not a number: a whole number from 1 to "
	 "99999\n"
	 "3: number: \"1e2\" has an exponent: a whole number from 1 to 99999\n"
	 "4: number: \"1,0\" has a decimal comma, not a decimal point: a whole number "
	 "from 1 to 99999\n"},
	/* ---- rings ---- */
	{RINGS,
	 BYTES(RINGS_HEAD "f,driven,40,80,A,a,20\n"
			  "f,ridden,41,80,B,right,40\n"
			  "f,driven,40,80,A,c,20\n"
			  "f,driven,40,80,B,rigth,40\n"
			  "f,driven,40,80,B,right,81\n"
			  "f,driven,40,80,AK,left,1\n"),
	 "3: discipline: not the same as in line 2 for kind \"f\": one value for all rows "
	 "of a kind\n"
	 "3: width_m: not the same as in line 2 for kind \"f\": one value for all rows of "
	 "a kind\n"
	 "4: peg: A is there twice: a letter stands once\n"
	 "5: side: unknown side \"rigth\": did you mean \"right\"? (left, right, a, c, "
	 "centre)\n"
	 "6: peg: B is there twice: a letter stands once\n"
	 "7: peg: AK is the name of a corner: corners are there already\n"},
	{RINGS,
	 BYTES(RINGS_HEAD "f,driven,4,800,A,a,20\n"
			  "g,driven,80,40,A,a,20\n"),
	 "2: width_m: \"4\" is out of range: a number from 5 to 500 m\n"
	 "2: length_m: \"800\" is out of range: a number from 5 to 500 m\n"
	 "3: length_m: no length of a ring: from its width to 500 m are accepted\n"},
	{RINGS,
	 BYTES(RINGS_HEAD "f,driven,40,80,A,a,20\n"
			  "g,driven,40,80,K,left,10\n"
			  "f,driven,40,80,C,c,20\n"),
	 "3: peg: kind \"g\" has no letter A: A and C stand in every ring\n"
	 "3: peg: kind \"g\" has no letter C: A and C stand in every ring\n"},
	/* ---- readings ---- */
	{READINGS,
	 BYTES(READINGS_HEAD "A,Q,0,-1,\n"
			     "b,AB,1000001,0,\n"
			     "A,A,12,,\n"
			     "cm,X,twelve,,\n"),
	 "2: distance_m: \"0\" is no distance: metres, over 0\n"
	 "2: sigma_m: \"-1\" is less than nothing: a standard error over 0, or an empty field "
	 "for the usual one\n"
	 "2: to: unknown letter \"Q\": a letter or corner of field: A, AK, HC, C, CM, B, "
	 "FA, X\n"
	 "3: distance_m: \"1000001\" is out of range: a number from 0.001 to 1000000 m\n"
	 "3: sigma_m: \"0\" would mean that this reading cannot be wrong: a standard error over "
	 "0, or an empty field for the usual one\n"
	 "3: from: unknown letter \"b\": did you mean \"B\"? (a letter or corner of "
	 "field: A, AK, HC, C, CM, B, FA, X)\n"
	 "3: to: unknown letter \"AB\": a letter or corner of field: A, AK, HC, C, CM, B, "
	 "FA, X\n"
	 "4: to: from \"A\" to itself: two different letters\n"
	 "5: distance_m: \"twelve\" is not a number: a number from 0.001 to 1000000 m\n"
	 "5: from: unknown letter \"cm\": did you mean \"CM\"? (a letter or corner of "
	 "field: A, AK, HC, C, CM, B, FA, X)\n"},
	{READINGS_OF_POINTS,
	 BYTES(READINGS_HEAD "p1,p3,12,,\n"
			     "p2,p2,12,,\n"),
	 "2: to: unknown point \"p3\": p1, p2\n"
	 "3: to: from \"p2\" to itself: two different points\n"},
	/* ---- rules ---- */
	{RULES,
	 BYTES(RULES_HEAD "r,procent,up,-1,10,0.5,10,point,-5,x,1.234,general:0,own\n"
			  "r,percent,highest,0,3,3,3,points,,2,,mean,own\n"
			  "r,percent,highest,0,3,3,3,points,,2,,,own\n"
			  "q,percent,highest,0,3,3,3,points,eliminated,2,,,own\n"
			  "p,percent,highest,5,3,3,3,points,2,4,,,\n"
			  "o,percent,highest,5,3,3,3,points,2,4,,,own\n"),
	 "2: scale: unknown scale \"procent\": did you mean \"percent\"? (percent, "
	 "penalties, points, tenths)\n"
	 "2: wins: unknown word \"up\": highest, lowest\n"
	 "2: base: \"-1\" is out of range: a whole number from 0 to 1000\n"
	 "2: judge_decimals: \"10\" is out of range: a whole number from -1 to 9\n"
	 "2: percent_decimals: \"0.5\" is not a whole number: a whole number from 0 to 9\n"
	 "2: score_decimals: \"10\" is out of range: a whole number from 0 to 9\n"
	 "2: taken: unknown word \"point\": did you mean \"points\"? (points, percent, "
	 "score)\n"
	 "2: error_1: \"-5\" is no cost of an error: a number from 0 to 1000 with at most "
	 "2 decimals, or eliminated\n"
	 "2: error_2: \"x\" is no cost of an error: a number from 0 to 1000 with at most "
	 "2 decimals, or eliminated\n"
	 "2: error_3: \"1.234\" is no cost of an error: a number from 0 to 1000 with at "
	 "most 2 decimals, or eliminated\n"
	 "2: ties: \"general:0\" is no list of tie-breaks: up to four of general, artistic, "
	 "median, president, judge:B, item:12 and decision with spaces between, each with :3 behind "
	 "it where only the first three places are parted\n"
	 "3: ties: \"mean\" is no list of tie-breaks: up to four of general, artistic, "
	 "median, president, judge:B, item:12 and decision with spaces between, each with :3 behind "
	 "it where only the first three places are parted\n"
	 "3: rule: \"r\" is there already, in line 2: each rule once\n"
	 "4: rule: \"r\" is there already, in line 2: each rule once\n"
	 "5: error_2: a cost after elimination: costs from the first error on, to the "
	 "last that is counted\n"
	 "6: source: empty: this column is filled in each row\n"
	 "7: -: rule o: base is 1 to 1000 for penalties, else 0\n"},
	/* ---- tests and movements ---- */
	{TESTS,
	 BYTES(TESTS_HEAD "T1,One,feild,,,0\n"
			  "T1,,field,novice,combind,0.6666667\n"
			  "T3,Three,small,advanced,,\n"
			  "T4,Four,,advance,,1e3\n"),
	 "2: multiplier: \"0\" is out of range: a number from 0.000001 to 999.999999 with "
	 "at most 6 decimals\n"
	 "2: kind: unknown kind \"feild\": did you mean \"field\"? (field, small)\n"
	 "3: title: empty: this column is filled in each row\n"
	 "3: multiplier: \"0.6666667\" has too many decimals: a number from 0.000001 to "
	 "999.999999 with at most 6 decimals\n"
	 "3: test: \"T1\" is there already, in line 2: each test once\n"
	 "3: rule: unknown rule \"combind\": did you mean \"combined\"? (combined, plain)\n"
	 "3: level: unknown driven level \"novice\": training, advanced\n"
	 "4: level: unknown ridden level \"advanced\": training\n"
	 "5: multiplier: \"1e3\" has an exponent: a number from 0.000001 to 999.999999 "
	 "with at most 6 decimals\n"
	 "5: level: unknown level \"advance\": did you mean \"advanced\"? (training, "
	 "advanced)\n"},
	{MOVEMENTS,
	 BYTES(MOVEMENTS_HEAD "T3,1,,Enter,,,1,movement,\n"
			      "T3,2,,Enter,,,1,movement,\n"
			      "T1,errors,,Enter,,,0,move,0.15\n"
			      "T1,total,,Enter,,gallop,1.2345,general,2\n"
			      "T1,3,,Enter,,,1,movement,\n"
			      "T1,3,,,,,100,movement,\n"
			      "T1,4,,Enter,X circle:20:up,,1,movement,\n"),
	 "2: test: unknown test \"T3\": T1, T2\n"
	 "4: item: \"errors\" is kept for the foot of a marks sheet: another name for the "
	 "item\n"
	 "4: coefficient: \"0\" is out of range: a number from 0.001 to 99.999 with at "
	 "most 3 decimals\n"
	 "4: group: unknown group \"move\": movement, general, artistic\n"
	 "4: mark_step: \"0.15\" is no step of marks: 0.05, 0.1, 0.2, 0.25, 0.5 or 1\n"
	 "5: item: \"total\" is kept for the foot of a marks sheet: another name for the "
	 "item\n"
	 "5: coefficient: \"1.2345\" has too many decimals: a number from 0.001 to 99.999 "
	 "with at most 3 decimals\n"
	 "5: mark_step: \"2\" is no step of marks: 0.05, 0.1, 0.2, 0.25, 0.5 or 1\n"
	 "5: gait: unknown gait \"gallop\": walk, trot\n"
	 "7: movement: empty: this column is filled in each row\n"
	 "7: coefficient: \"100\" is out of range: a number from 0.001 to 99.999 with at "
	 "most 3 decimals\n"
	 "7: item: \"3\" is there already, in line 6: each item of a test once\n"
	 "8: figure: movement 4: step 2 \"circle:20:up\", position 11: no hand: accepted: left "
	 "or right\n"},
	/* ---- classes and entries ---- */
	{CLASSES,
	 BYTES(CLASSES_HEAD "a,A,T9,training,main,combined,C,\n"
			    "a,A,T1,advnced,mian,plane,C B C,\n"
			    "b,,T1,,,,\"*\",\n"
			    "c,C,T1,,,,C* B*,\n"
			    "d,D,T1,,,,,\n"),
	 "2: test: unknown test \"T9\": T1, T2\n"
	 "3: judges: judge C stands there twice: each position once\n"
	 "3: class: \"a\" is there already, in line 2: each class once\n"
	 "3: ring: unknown ring \"mian\": did you mean \"main\"? (main)\n"
	 "3: rule: unknown rule \"plane\": combined, plain\n"
	 "3: level: unknown level \"advnced\": did you mean \"advanced\"? "
	 "(training, advanced)\n"
	 "4: title: empty: this column is filled in each row\n"
	 "4: judges: \"*\" is no judge's position: letters and digits, with a star for "
	 "the president\n"
	 "5: judges: two presidents: only one has a star\n"
	 "6: judges: empty: this column is filled in each row\n"},
	{CLASSES,
	 BYTES("class,title,test,level,ring,rule,judges,judge_names\n"
	       "a,A,T1,,,,C B,Ann Ash\n"
	       "b,B,T1,,,,C B,Ann Ash; Bo\n"
	       "c,C,T1,,,,C B,\"Ann Ash; Bo\nBirch\"\n"),
	 "2: judge_names: 1 name for 2 judges: one for each, semicolons between, nothing there "
	 "where it is not known\n"
	 "4: judge_names: the name of judge B holds a line break or a tab: text on one line\n"},
	{ENTRIES,
	 BYTES(ENTRIES_HEAD "One,1,P,Sol,,,,,,,,\n"
			    "one,0,P,;/+;,2m30,,,,,,,\n"
			    "one,100000,,Sol,132 in,,,,,,maybe,went\n"
			    "one,1.5,P,Sol,,,,,,,,\n"
			    "one,5,P,Sol,,,,,,,,\n"
			    "one,05,Q,Sol,,,,,,,,\n"),
	 "2: class: unknown class \"One\": did you mean \"one\"? (one, two)\n"
	 "3: number: \"0\" is out of range: a whole number from 1 to 99999\n"
	 "3: horses: no horse: at least one name, semicolons between\n"
	 "3: height_cm: \"2m30\" is not a height: 132cm, 1.32m, 13hh or 13.2hh (13 hands "
	 "2 inches; 0 to 3 inches), from 40 to 220 cm\n"
	 "4: number: \"100000\" is out of range: a whole number from 1 to 99999\n"
	 "4: driver: empty: this column is filled in each row\n"
	 "4: height_cm: \"132 in\" is not a height: 132cm, 1.32m, 13hh or 13.2hh (13 "
	 "hands 2 inches; 0 to 3 inches), from 40 to 220 cm\n"
	 "4: hors_concours: \"maybe\" is neither: yes or no\n"
	 "4: status: unknown status \"went\": entered, retired, eliminated, disqualified, "
	 "withdrawn, did not start\n"
	 "5: number: \"1.5\" is not a whole number: a whole number from 1 to 99999\n"
	 "7: number: \"5\" is there already, in line 6: each number of a class once\n"},
	{ENTRIES,
	 BYTES("class,number,rider,horses,height_cm,turnout,groom,club\n"
	       "one,5,,Sol,,,,\n"),
	 "2: rider: empty: this column is filled in each row\n"},
	/* ---- marks ---- */
	{MARKS,
	 BYTES(MARKS_HEAD "oen,7,B,1,6,\n"
			  "one,8,B,1,6,\n"
			  "one,seven,X,9,6,\n"
			  "one,7,b,1,6,\n"
			  "one,7,C,genral-1,6,\n"),
	 "2: class: unknown class \"oen\": did you mean \"one\"? (one, two)\n"
	 "3: number: no entry has number 8 in class \"one\": a number that is entered\n"
	 "4: number: \"seven\" is not a number: a whole number from 1 to 99999\n"
	 "4: judge: unknown judge \"X\": B, E\n"
	 "4: item: unknown item \"9\": errors, total or an item of the test: 1, 2, "
	 "general-1\n"
	 "5: judge: unknown judge \"b\": did you mean \"B\"? (B, E)\n"
	 "6: judge: unknown judge \"C\": B, E\n"
	 "6: item: unknown item \"genral-1\": did you mean \"general-1\"? (errors, total "
	 "or an item of the test: 1, 2, general-1)\n"},
	{MARKS,
	 BYTES(MARKS_HEAD "one,7,B,1,6.3,\n"
			  "one,7,E,1,6.55,\n"
			  "one,12,B,1,10.5,\n"
			  "one,12,E,1,-1,\n"
			  "one,7,B,2,6.5,\n"
			  "one,7,B,general-1,6.35,\n"
			  "two,7,C,1,\"6,5\",\n"
			  "one,7,E,2,six,\n"
			  "one,12,E,2,,\n"),
	 "2: mark: mark 6.3 is off its step: 0 to 10 in steps of 0.5\n"
	 "3: mark: mark 6.55 is off its step: 0 to 10 in steps of 0.5\n"
	 "4: mark: mark 10.5 is out of range: 0 to 10 in steps of 0.5\n"
	 "5: mark: mark -1 is out of range: 0 to 10 in steps of 0.5\n"
	 "6: mark: mark 6.5 is off its step: 0 to 10 in steps of 1\n"
	 "7: mark: mark 6.35 is off its step: 0 to 10 in steps of 0.1\n"
	 "8: mark: mark \"6,5\" has a decimal comma, not a decimal point: 0 to 10 in "
	 "steps of 0.5\n"
	 "9: mark: mark \"six\" is not a number: 0 to 10 in steps of 1\n"
	 "10: mark: empty: this column is filled in each row\n"},
	{MARKS,
	 BYTES(MARKS_HEAD "one,7,B,errors,10,\n"
			  "one,7,E,errors,1.5,\n"
			  "one,7,B,total,-1,\n"
			  "one,7,E,total,173.123456,\n"
			  "one,12,B,total,1e3,\n"
			  "one,12,B,errors,-1,\n"),
	 "2: mark: \"10\" is no number of errors of course: a whole number from 0 to 9\n"
	 "3: mark: \"1.5\" is no number of errors of course: a whole number from 0 to 9\n"
	 "4: mark: \"-1\" is no total: a number from 0 to 1000000 with at most 5 decimals\n"
	 "5: mark: \"173.123456\" is no total: a number from 0 to 1000000 with at most 5 "
	 "decimals\n"
	 "6: mark: \"1e3\" is no total: a number from 0 to 1000000 with at most 5 decimals\n"
	 "7: mark: \"-1\" is no number of errors of course: a whole number from 0 to 9\n"},
	/* Each box once, whatever its rows say; every other box beside it is another one. */
	{MARKS,
	 BYTES(MARKS_HEAD "one,7,B,1,6,\n"
			  "one,7,B,2,6,\n"
			  "one,7,E,1,6,\n"
			  "one,12,B,1,6,\n"
			  "two,7,C,1,6,\n"
			  "one,7,B,errors,1,\n"
			  "one,7,B,total,6,\n"
			  "one,7,B,1,7,\n"
			  "one,7,B,1,7.2,\n"
			  "one,7,E,general-1,6.55,\n"
			  "one,7,E,general-1,6.5,\n"
			  "two,7,C,1,6,\n"
			  "one,7,B,errors,1,\n"
			  "one,7,B,total,7,\n"
			  "one,7,E,errors,1,\n"
			  "one,8,B,1,6,\n"
			  "one,8,B,1,6,\n"),
	 "9: item: class one, number 7, judge B, item 1 stands in an earlier row too: each box "
	 "once\n"
	 "10: mark: mark 7.2 is off its step: 0 to 10 in steps of 0.5\n"
	 "10: item: class one, number 7, judge B, item 1 stands in an earlier row too: each box "
	 "once\n"
	 "11: mark: mark 6.55 is off its step: 0 to 10 in steps of 0.1\n"
	 "12: item: class one, number 7, judge E, item general-1 stands in an earlier row too: "
	 "each box once\n"
	 "13: item: class two, number 7, judge C, item 1 stands in an earlier row too: each box "
	 "once\n"
	 "14: item: class one, number 7, judge B, item errors stands in an earlier row too: each "
	 "box once\n"
	 "15: item: class one, number 7, judge B, item total stands in an earlier row too: each "
	 "box once\n"
	 "17: number: no entry has number 8 in class \"one\": a number that is entered\n"
	 "18: number: no entry has number 8 in class \"one\": a number that is entered\n"},
	{MARKS,
	 BYTES(MARKS_HEAD
	       "one,7,B,1,6.3 and more text than any message to a person should repeat in full,\n"),
	 "2: mark: mark \"6.3 and more text than any message to a person should "
	 "repea...\" is not a number: 0 to 10 in steps of 0.5\n"},
	/* ---- no second fault that follows from a first ---- */
	{WISHES,
	 BYTES(WISHES_HEAD "drivr,Per Ek,,,09:00,,,\n"
			   "driver,Per Ek,,first,,,,\n"
			   "driver,Per Ek,,,9 am,,,\n"
			   "entry,7,nowhere,,09:00,,,\n"
			   "entry,7,,,09:00,,,\n"
			   "driver,Per Ek,,,,,one,\n"
			   "class,one,,,,,one,\n"
			   "driver,Per Ek,,,,,,\n"
			   "entry,seven,one,,10:00,09:00,,\n"),
	 "2: about: unknown about \"drivr\": did you mean \"driver\"? (class, entry, driver, horse, "
	 "groom, carriage, judge)\n"
	 "3: day: \"first\" is not a number: a whole number from 1 to 30\n"
	 "4: not_before: \"9 am\" is no time of day: a time of day as 09:05 or 09:05:30, to "
	 "24:00\n"
	 "5: class: unknown class \"nowhere\": one, two\n"
	 "6: class: an entry is told by its class and number\n"
	 "7: after: is for wishes about a class\n"
	 "8: after: a class cannot be after itself\n"
	 "9: -: asks nothing: day, not_before, over_by or after\n"
	 "10: over_by: is no later than not_before\n"
	 "10: name: an entry's name is its number\n"},
	{WISHES,
	 BYTES("abuot,name,class,day,not_befor,over_by,after,weight\n"
	       "driver,Per Ek,,,09:00,,,\n"
	       "driver,Per Ek,nowhere,,09:00,,,\n"),
	 "1: abuot: unknown column \"abuot\": did you mean \"about\"? (the columns are about, name, "
	 "[class], [day], [not_before], [over_by], [after], [weight])\n"
	 "1: not_befor: unknown column \"not_befor\": did you mean \"not_before\"? (the columns are "
	 "about, name, [class], [day], [not_before], [over_by], [after], [weight])\n"
	 "3: class: unknown class \"nowhere\": one, two\n"},
	{PLANS,
	 BYTES(PLANS_HEAD "one,,1,,120,,,600,,,\n"
			  "one,,1,,120,ten,,600,,,\n"
			  "two,,1,,120,10,,x,10,x,drawn\n"),
	 "2: break_s: a break without its place: break_every or break_after_s\n"
	 "3: break_every: \"ten\" is not a number: a whole number from 1 to 999\n"
	 "3: class: \"one\" is there already, in line 2: each class once\n"
	 "4: break_s: \"x\" is not a number: a whole number from 1 to 14400 s\n"
	 "4: harrow_s: \"x\" is not a number: a whole number from 1 to 14400 s\n"},
	{ARTICLES,
	 BYTES(ARTICLES_HEAD "driven,groom dismounts,,five,10,,\n"
			     "driven,whip down,,,10,,\n"),
	 "2: amount_1: \"five\" is no cost of an error: a number from 0 to 1000 with at most 2 "
	 "decimals, or eliminated\n"
	 "3: amount_2: a cost after an empty field: costs from the first error on, to the last "
	 "that is counted\n"},
	{RINGS,
	 BYTES(RINGS_HEAD "field,driven,40,8,A,a,20\n"
			  "field,driven,40,8,B,right,40\n"),
	 "2: length_m: no length of a ring: from its width to 500 m are accepted\n"},
};
