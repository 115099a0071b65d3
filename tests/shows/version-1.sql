PRAGMA application_id = 1381266280;
PRAGMA user_version = 1;
PRAGMA foreign_keys=OFF;
BEGIN TRANSACTION;
CREATE TABLE show (
	id INTEGER PRIMARY KEY CHECK (id = 1), -- there is one row
	title TEXT NOT NULL CHECK (title <> ''), -- as printed over every paper
	day TEXT NOT NULL CHECK (day IS date(day, '+0 days')), -- its first day, YYYY-MM-DD
	created TEXT NOT NULL CHECK (created <> '') -- when the file was made, as the maker said
) STRICT;
INSERT INTO show VALUES(1,'Spring driving day','2026-05-09','2026-05-09 18:00:00');
CREATE TABLE ring_kind (
	id INTEGER PRIMARY KEY, -- the order in which kinds are listed
	name TEXT NOT NULL UNIQUE CHECK (name <> ''), -- "driven-40x80"
	discipline TEXT NOT NULL CHECK (discipline IN ('ridden', 'driven')), -- who uses it
	width_m REAL NOT NULL CHECK (width_m > 0), -- inside, short sides
	length_m REAL NOT NULL CHECK (length_m > 0) -- inside, long sides
) STRICT;
INSERT INTO ring_kind VALUES(1,'ridden-20x40','ridden',20.0,40.0);
INSERT INTO ring_kind VALUES(2,'ridden-20x60','ridden',20.0,60.0);
INSERT INTO ring_kind VALUES(3,'driven-40x80','driven',40.0,80.0);
INSERT INTO ring_kind VALUES(4,'driven-40x100','driven',40.0,100.0);
CREATE TABLE ring_letter (
	kind TEXT NOT NULL REFERENCES ring_kind (name), -- the kind it stands in
	seq INTEGER NOT NULL CHECK (seq >= 1), -- its order in the rings file
	name TEXT NOT NULL CHECK (name <> ''), -- "M"
	side TEXT NOT NULL CHECK (side IN ('left', 'right', 'a', 'c', 'centre')), -- seen from A
	offset_m REAL NOT NULL CHECK (offset_m >= 0), -- from the A end; on a and c from the left
	PRIMARY KEY (kind, seq),
	UNIQUE (kind, name)
) STRICT, WITHOUT ROWID;
INSERT INTO ring_letter VALUES('driven-40x100',1,'A','a',20.0);
INSERT INTO ring_letter VALUES('driven-40x100',2,'K','left',10.0);
INSERT INTO ring_letter VALUES('driven-40x100',3,'V','left',30.0);
INSERT INTO ring_letter VALUES('driven-40x100',4,'E','left',50.0);
INSERT INTO ring_letter VALUES('driven-40x100',5,'S','left',70.0);
INSERT INTO ring_letter VALUES('driven-40x100',6,'H','left',90.0);
INSERT INTO ring_letter VALUES('driven-40x100',7,'F','right',10.0);
INSERT INTO ring_letter VALUES('driven-40x100',8,'P','right',30.0);
INSERT INTO ring_letter VALUES('driven-40x100',9,'B','right',50.0);
INSERT INTO ring_letter VALUES('driven-40x100',10,'R','right',70.0);
INSERT INTO ring_letter VALUES('driven-40x100',11,'M','right',90.0);
INSERT INTO ring_letter VALUES('driven-40x100',12,'C','c',20.0);
INSERT INTO ring_letter VALUES('driven-40x100',13,'D','centre',10.0);
INSERT INTO ring_letter VALUES('driven-40x100',14,'L','centre',30.0);
INSERT INTO ring_letter VALUES('driven-40x100',15,'X','centre',50.0);
INSERT INTO ring_letter VALUES('driven-40x100',16,'I','centre',70.0);
INSERT INTO ring_letter VALUES('driven-40x100',17,'G','centre',90.0);
INSERT INTO ring_letter VALUES('driven-40x80',1,'A','a',20.0);
INSERT INTO ring_letter VALUES('driven-40x80',2,'K','left',10.0);
INSERT INTO ring_letter VALUES('driven-40x80',3,'V','left',25.0);
INSERT INTO ring_letter VALUES('driven-40x80',4,'E','left',40.0);
INSERT INTO ring_letter VALUES('driven-40x80',5,'S','left',55.0);
INSERT INTO ring_letter VALUES('driven-40x80',6,'H','left',70.0);
INSERT INTO ring_letter VALUES('driven-40x80',7,'F','right',10.0);
INSERT INTO ring_letter VALUES('driven-40x80',8,'P','right',25.0);
INSERT INTO ring_letter VALUES('driven-40x80',9,'B','right',40.0);
INSERT INTO ring_letter VALUES('driven-40x80',10,'R','right',55.0);
INSERT INTO ring_letter VALUES('driven-40x80',11,'M','right',70.0);
INSERT INTO ring_letter VALUES('driven-40x80',12,'C','c',20.0);
INSERT INTO ring_letter VALUES('driven-40x80',13,'D','centre',10.0);
INSERT INTO ring_letter VALUES('driven-40x80',14,'L','centre',25.0);
INSERT INTO ring_letter VALUES('driven-40x80',15,'X','centre',40.0);
INSERT INTO ring_letter VALUES('driven-40x80',16,'I','centre',55.0);
INSERT INTO ring_letter VALUES('driven-40x80',17,'G','centre',70.0);
INSERT INTO ring_letter VALUES('ridden-20x40',1,'A','a',10.0);
INSERT INTO ring_letter VALUES('ridden-20x40',2,'K','left',6.0);
INSERT INTO ring_letter VALUES('ridden-20x40',3,'E','left',20.0);
INSERT INTO ring_letter VALUES('ridden-20x40',4,'H','left',34.0);
INSERT INTO ring_letter VALUES('ridden-20x40',5,'F','right',6.0);
INSERT INTO ring_letter VALUES('ridden-20x40',6,'B','right',20.0);
INSERT INTO ring_letter VALUES('ridden-20x40',7,'M','right',34.0);
INSERT INTO ring_letter VALUES('ridden-20x40',8,'C','c',10.0);
INSERT INTO ring_letter VALUES('ridden-20x40',9,'D','centre',6.0);
INSERT INTO ring_letter VALUES('ridden-20x40',10,'X','centre',20.0);
INSERT INTO ring_letter VALUES('ridden-20x40',11,'G','centre',34.0);
INSERT INTO ring_letter VALUES('ridden-20x60',1,'A','a',10.0);
INSERT INTO ring_letter VALUES('ridden-20x60',2,'K','left',6.0);
INSERT INTO ring_letter VALUES('ridden-20x60',3,'V','left',18.0);
INSERT INTO ring_letter VALUES('ridden-20x60',4,'E','left',30.0);
INSERT INTO ring_letter VALUES('ridden-20x60',5,'S','left',42.0);
INSERT INTO ring_letter VALUES('ridden-20x60',6,'H','left',54.0);
INSERT INTO ring_letter VALUES('ridden-20x60',7,'F','right',6.0);
INSERT INTO ring_letter VALUES('ridden-20x60',8,'P','right',18.0);
INSERT INTO ring_letter VALUES('ridden-20x60',9,'B','right',30.0);
INSERT INTO ring_letter VALUES('ridden-20x60',10,'R','right',42.0);
INSERT INTO ring_letter VALUES('ridden-20x60',11,'M','right',54.0);
INSERT INTO ring_letter VALUES('ridden-20x60',12,'C','c',10.0);
INSERT INTO ring_letter VALUES('ridden-20x60',13,'D','centre',6.0);
INSERT INTO ring_letter VALUES('ridden-20x60',14,'L','centre',18.0);
INSERT INTO ring_letter VALUES('ridden-20x60',15,'X','centre',30.0);
INSERT INTO ring_letter VALUES('ridden-20x60',16,'I','centre',42.0);
INSERT INTO ring_letter VALUES('ridden-20x60',17,'G','centre',54.0);
CREATE TABLE gait (
	id INTEGER PRIMARY KEY, -- the order in which gaits are listed
	name TEXT NOT NULL UNIQUE CHECK (name <> ''), -- "trot"
	speed_m_per_s REAL NOT NULL CHECK (speed_m_per_s > 0), -- of a horse of 165 cm
	stride_m REAL NOT NULL CHECK (stride_m > 0), -- of the same
	source TEXT CHECK (source <> '') -- who measured it
) STRICT;
INSERT INTO gait VALUES(1,'walk',1.7299999999999999822,1.8700000000000001065,'medium walk: Clayton, Equine Veterinary Journal 1994-95, ridden mean (speed and stride from memory)');
INSERT INTO gait VALUES(2,'collected walk',1.3700000000000001065,1.5700000000000000621,'Clayton, Equine Veterinary Journal 1994-95, ridden mean (as cited)');
INSERT INTO gait VALUES(3,'medium walk',1.7299999999999999822,1.8700000000000001065,'Clayton, Equine Veterinary Journal 1994-95, ridden mean (speed and stride from memory)');
INSERT INTO gait VALUES(4,'extended walk',1.8200000000000000621,1.9299999999999999378,'Clayton, Equine Veterinary Journal 1994-95, ridden mean (as cited)');
INSERT INTO gait VALUES(5,'trot',3.6099999999999998756,2.7299999999999999822,'working trot: Clayton, Equine Veterinary Journal 26:230, 1994, ridden mean (as cited)');
INSERT INTO gait VALUES(6,'collected trot',3.2000000000000001776,2.5,'Clayton, Equine Veterinary Journal 26:230, 1994, ridden mean (as cited)');
INSERT INTO gait VALUES(7,'working trot',3.6099999999999998756,2.7299999999999999822,'Clayton, Equine Veterinary Journal 26:230, 1994, ridden mean (as cited)');
INSERT INTO gait VALUES(8,'medium trot',4.4699999999999997513,3.2599999999999997868,'Clayton, Equine Veterinary Journal 26:230, 1994, ridden mean (as cited)');
INSERT INTO gait VALUES(9,'extended trot',4.9299999999999997157,3.5499999999999998223,'Clayton, Equine Veterinary Journal 26:230, 1994, ridden mean (as cited)');
INSERT INTO gait VALUES(10,'canter',3.9100000000000001421,2.3500000000000000888,'working canter: Clayton, Equine Veterinary Journal 1994, ridden mean (speed and stride from memory)');
INSERT INTO gait VALUES(11,'collected canter',3.2700000000000000177,2.0,'Clayton, Equine Veterinary Journal 1994, ridden mean (speed and stride from memory)');
INSERT INTO gait VALUES(12,'working canter',3.9100000000000001421,2.3500000000000000888,'Clayton, Equine Veterinary Journal 1994, ridden mean (speed and stride from memory)');
INSERT INTO gait VALUES(13,'medium canter',4.9000000000000003552,2.9399999999999999467,'Clayton, Equine Veterinary Journal 1994, ridden mean (speed and stride from memory)');
INSERT INTO gait VALUES(14,'extended canter',5.9699999999999997513,3.4700000000000001953,'Clayton, Equine Veterinary Journal 1994, ridden mean (speed and stride from memory)');
INSERT INTO gait VALUES(15,'rein-back',0.59999999999999997779,0.8000000000000000444,'an estimate; no published figure found: time your own');
CREATE TABLE level (
	id INTEGER PRIMARY KEY, -- the order in which levels are listed
	name TEXT NOT NULL CHECK (name <> ''), -- "intermediate"; may stand in both disciplines
	discipline TEXT NOT NULL CHECK (discipline IN ('ridden', 'driven')), -- which of the two
	turn_diameter_m REAL NOT NULL CHECK (turn_diameter_m > 0), -- corners and turns
	reference_height_cm REAL NOT NULL CHECK (reference_height_cm > 0), -- of that diameter
	gait TEXT REFERENCES gait (name), -- the gait that turns are timed at
	UNIQUE (name, discipline)
) STRICT;
INSERT INTO level VALUES(1,'training','driven',20.0,142.19999999999998862,'trot');
INSERT INTO level VALUES(2,'preliminary','driven',20.0,142.19999999999998862,'trot');
INSERT INTO level VALUES(3,'intermediate','driven',18.0,142.19999999999998862,'trot');
INSERT INTO level VALUES(4,'advanced','driven',15.0,142.19999999999998862,'trot');
INSERT INTO level VALUES(5,'introductory','ridden',10.0,142.19999999999998862,'trot');
INSERT INTO level VALUES(6,'training','ridden',10.0,142.19999999999998862,'trot');
INSERT INTO level VALUES(7,'first','ridden',10.0,142.19999999999998862,'trot');
INSERT INTO level VALUES(8,'second','ridden',10.0,142.19999999999998862,'trot');
INSERT INTO level VALUES(9,'third','ridden',8.0,142.19999999999998862,'trot');
INSERT INTO level VALUES(10,'advanced','ridden',6.0,142.19999999999998862,'trot');
CREATE TABLE rule (
	id INTEGER PRIMARY KEY, -- the order in which rules are listed
	name TEXT NOT NULL UNIQUE CHECK (name <> ''), -- "driven-percent"
	scale TEXT NOT NULL CHECK (scale IN ('percent', 'penalties')), -- what a score is
	wins TEXT NOT NULL CHECK (wins IN ('highest', 'lowest')), -- which score is first
	base INTEGER NOT NULL CHECK (base >= 0), -- of penalties: what the score is taken from
	judge_decimals INTEGER NOT NULL CHECK (judge_decimals BETWEEN -1 AND 9), -- -1: not rounded
	percent_decimals INTEGER NOT NULL CHECK (percent_decimals BETWEEN 0 AND 9), -- of the mean
	score_decimals INTEGER NOT NULL CHECK (score_decimals BETWEEN 0 AND 9), -- of what is ranked
	taken TEXT NOT NULL CHECK (taken IN ('points', 'percent', 'score')), -- errors come off there
	ties TEXT NOT NULL, -- how equal scores are parted, in order: "general median:3"
	source TEXT CHECK (source <> '') -- the rulebook
) STRICT;
INSERT INTO rule VALUES(1,'driven-percent','percent','highest',0,-1,3,3,'points','general','Errors off every sheet: KNHS Driving 404, 423, 449.1. Ties by general impression: US driven practice. Ranking by percentage and three decimals: from memory. Check the rulebook in force.');
INSERT INTO rule VALUES(2,'driven-combined','penalties','lowest',160,-1,2,2,'score','general','Conversion to penalties, two decimals, errors once after it: KNHS Driving 429, 423. Ties by general impression: US driven practice. Check the rulebook in force.');
INSERT INTO rule VALUES(3,'ridden-points','percent','highest',0,-1,3,3,'points','general','All points added, one percentage: KNHS Dressage 137; errors 128.1 and US Equestrian EV136. Ties by collective marks: US practice. Three decimals: from memory. Check the rulebook in force.');
INSERT INTO rule VALUES(4,'ridden-rounded','percent','highest',0,3,3,3,'percent','median:3','Each judge to three decimals, then the mean; errors of seniors; ties by the median for the first three places: FEI Dressage, in force 1 January 2016. Check the rulebook in force.');
INSERT INTO rule VALUES(5,'ridden-eventing','penalties','lowest',100,2,2,1,'points','','Judge and mean to two decimals, 100 less the mean to one: KNHS Eventing 317. Errors: KNHS Dressage 128.1 and US Equestrian EV136. Check the rulebook in force.');
CREATE TABLE rule_error (
	rule TEXT NOT NULL REFERENCES rule (name), -- the rule it belongs to
	seq INTEGER NOT NULL CHECK (seq BETWEEN 1 AND 3), -- which error of course
	amount_x100 INTEGER NOT NULL CHECK (amount_x100 >= 0), -- added to those before it
	eliminated INTEGER NOT NULL CHECK (eliminated IN (0, 1)), -- 1: it ends the test
	PRIMARY KEY (rule, seq)
) STRICT, WITHOUT ROWID;
INSERT INTO rule_error VALUES('driven-combined',1,500,0);
INSERT INTO rule_error VALUES('driven-combined',2,1000,0);
INSERT INTO rule_error VALUES('driven-combined',3,0,1);
INSERT INTO rule_error VALUES('driven-percent',1,500,0);
INSERT INTO rule_error VALUES('driven-percent',2,1000,0);
INSERT INTO rule_error VALUES('driven-percent',3,0,1);
INSERT INTO rule_error VALUES('ridden-eventing',1,200,0);
INSERT INTO rule_error VALUES('ridden-eventing',2,400,0);
INSERT INTO rule_error VALUES('ridden-eventing',3,0,1);
INSERT INTO rule_error VALUES('ridden-points',1,200,0);
INSERT INTO rule_error VALUES('ridden-points',2,400,0);
INSERT INTO rule_error VALUES('ridden-points',3,0,1);
INSERT INTO rule_error VALUES('ridden-rounded',1,200,0);
INSERT INTO rule_error VALUES('ridden-rounded',2,0,1);
CREATE TABLE turnout_part (
	id INTEGER PRIMARY KEY, -- parts stand from front to back
	turnout TEXT NOT NULL CHECK (turnout <> ''), -- the turnout's name
	part TEXT NOT NULL CHECK (part <> ''), -- "horse", "gig"
	hitch_m REAL NOT NULL, -- behind the axle in front; negative: in front of it
	length_m REAL NOT NULL CHECK (length_m > 0), -- from the hitch to its own axle
	width_m REAL NOT NULL CHECK (width_m >= 0), -- overall
	track_m REAL CHECK (track_m > 0), -- between the wheels; for the overturning limit
	cog_m REAL CHECK (cog_m > 0), -- height of the centre of gravity; for the same
	UNIQUE (turnout, part)
) STRICT;
INSERT INTO turnout_part VALUES(1,'single horse','horse',0.0,1.3500000000000000888,0.6500000000000000222,NULL,NULL);
INSERT INTO turnout_part VALUES(2,'horse and gig','horse',0.0,1.3500000000000000888,0.6500000000000000222,NULL,NULL);
INSERT INTO turnout_part VALUES(3,'horse and gig','gig',-0.94999999999999995559,2.5499999999999998223,1.5500000000000000444,NULL,NULL);
INSERT INTO turnout_part VALUES(4,'horse and gig with stiff shafts','horse',0.0,1.3500000000000000888,0.6500000000000000222,NULL,NULL);
INSERT INTO turnout_part VALUES(5,'horse and gig with stiff shafts','gig',-1.3500000000000000888,2.9500000000000001776,1.5500000000000000444,NULL,NULL);
INSERT INTO turnout_part VALUES(6,'horse and four wheels','horse',0.0,1.3500000000000000888,0.6500000000000000222,NULL,NULL);
INSERT INTO turnout_part VALUES(7,'horse and four wheels','shafts and front axle',-0.94999999999999995559,2.4500000000000001776,1.5500000000000000444,NULL,NULL);
INSERT INTO turnout_part VALUES(8,'horse and four wheels','rear axle',0.0,1.1999999999999999555,1.5500000000000000444,NULL,NULL);
INSERT INTO turnout_part VALUES(9,'horse and four wheels with stiff shafts','horse',0.0,1.3500000000000000888,0.6500000000000000222,NULL,NULL);
INSERT INTO turnout_part VALUES(10,'horse and four wheels with stiff shafts','shafts and front axle',-1.3500000000000000888,2.8500000000000000888,1.5500000000000000444,NULL,NULL);
INSERT INTO turnout_part VALUES(11,'horse and four wheels with stiff shafts','rear axle',0.0,1.1999999999999999555,1.5500000000000000444,NULL,NULL);
INSERT INTO turnout_part VALUES(12,'pair and four wheels','pair',0.0,1.3500000000000000888,1.6000000000000000888,NULL,NULL);
INSERT INTO turnout_part VALUES(13,'pair and four wheels','pole and front axle',-1.3999999999999999111,3.1000000000000000888,1.6499999999999999111,NULL,NULL);
INSERT INTO turnout_part VALUES(14,'pair and four wheels','rear axle',0.0,1.3000000000000000444,1.6499999999999999111,NULL,NULL);
INSERT INTO turnout_part VALUES(15,'tandem and gig','leader',0.0,1.3500000000000000888,0.6500000000000000222,NULL,NULL);
INSERT INTO turnout_part VALUES(16,'tandem and gig','wheeler',1.25,1.3500000000000000888,0.6500000000000000222,NULL,NULL);
INSERT INTO turnout_part VALUES(17,'tandem and gig','gig',-0.94999999999999995559,2.5499999999999998223,1.5500000000000000444,NULL,NULL);
INSERT INTO turnout_part VALUES(18,'four-in-hand','leaders',0.0,1.3500000000000000888,1.6000000000000000888,NULL,NULL);
INSERT INTO turnout_part VALUES(19,'four-in-hand','wheelers',1.3500000000000000888,1.3500000000000000888,1.6000000000000000888,NULL,NULL);
INSERT INTO turnout_part VALUES(20,'four-in-hand','pole and front axle',-1.3999999999999999111,3.2000000000000001776,1.75,NULL,NULL);
INSERT INTO turnout_part VALUES(21,'four-in-hand','rear axle',0.0,1.4499999999999999555,1.75,NULL,NULL);
INSERT INTO turnout_part VALUES(22,'pony and gig','pony',0.0,1.0400000000000000355,0.5,NULL,NULL);
INSERT INTO turnout_part VALUES(23,'pony and gig','gig',-0.75,2.0499999999999998223,1.4499999999999999555,NULL,NULL);
INSERT INTO turnout_part VALUES(24,'very small equine and gig','very small equine',0.0,0.71999999999999997335,0.4000000000000000222,NULL,NULL);
INSERT INTO turnout_part VALUES(25,'very small equine and gig','gig',-0.5,1.4499999999999999555,1.1999999999999999555,NULL,NULL);
CREATE TABLE ring (
	id INTEGER PRIMARY KEY, -- the order in which rings were added
	name TEXT NOT NULL UNIQUE CHECK (name <> ''), -- what the show calls it
	kind TEXT NOT NULL REFERENCES ring_kind (name) -- its size and letters
) STRICT;
INSERT INTO ring VALUES(1,'Oak ring','driven-40x80');
CREATE TABLE test (
	id INTEGER PRIMARY KEY, -- the order of import
	name TEXT NOT NULL UNIQUE CHECK (name <> ''), -- how classes name it
	title TEXT NOT NULL, -- as printed
	kind TEXT REFERENCES ring_kind (name), -- the ring it is made for
	level TEXT CHECK (level <> ''), -- its level, in the discipline of its ring
	rule TEXT REFERENCES rule (name), -- how it is scored, unless the class says otherwise
	multiplier_x1000000 INTEGER CHECK (multiplier_x1000000 > 0) -- printed on the sheet (0.64)
) STRICT;
INSERT INTO test VALUES(1,'Elm','Elm test','driven-40x80','training','driven-percent',NULL);
CREATE TABLE item (
	id INTEGER PRIMARY KEY, -- marks refer to it
	test TEXT NOT NULL REFERENCES test (name), -- the test it belongs to
	seq INTEGER NOT NULL CHECK (seq >= 1), -- its order on the sheet
	name TEXT NOT NULL CHECK (name <> ''), -- "12", "general-1"
	letters TEXT NOT NULL, -- where, as printed; may be empty
	movement TEXT NOT NULL, -- what, as printed
	figure TEXT CHECK (figure <> ''), -- the steps of its route
	gait TEXT REFERENCES gait (name), -- the gait it is driven in
	coefficient_x1000 INTEGER NOT NULL CHECK (coefficient_x1000 > 0), -- weight of the mark
	general INTEGER NOT NULL CHECK (general IN (0, 1)), -- 1: a mark of general impression
	mark_step_x10 INTEGER NOT NULL CHECK (mark_step_x10 BETWEEN 1 AND 100), -- 5: half marks
	UNIQUE (test, seq),
	UNIQUE (test, name)
) STRICT;
INSERT INTO item VALUES(1,'Elm',1,'1','A X','Enter and halt','X halt','trot',1000,0,5);
INSERT INTO item VALUES(2,'Elm',2,'g1','','General impression',NULL,NULL,2000,1,5);
CREATE TABLE class (
	id INTEGER PRIMARY KEY, -- the order of import
	name TEXT NOT NULL UNIQUE CHECK (name <> ''), -- "1", "2a"
	title TEXT NOT NULL, -- as printed
	test TEXT NOT NULL REFERENCES test (name), -- the test that is driven or ridden
	level TEXT CHECK (level <> ''), -- empty: the test's
	ring TEXT REFERENCES ring (name), -- where it is held, once that is known
	rule TEXT REFERENCES rule (name), -- empty: the test's
	division TEXT CHECK (division <> '') -- of entries that name none
) STRICT;
INSERT INTO class VALUES(1,'1','First','Elm',NULL,'Oak ring',NULL,NULL);
CREATE TABLE judge (
	id INTEGER PRIMARY KEY, -- marks refer to it
	class TEXT NOT NULL REFERENCES class (name), -- the class it judges
	seq INTEGER NOT NULL CHECK (seq >= 1), -- the order in which sheets are read
	position TEXT NOT NULL CHECK (position <> ''), -- the letter it sits at
	president INTEGER NOT NULL CHECK (president IN (0, 1)), -- 1: presides; one a class
	UNIQUE (class, seq),
	UNIQUE (class, position)
) STRICT;
INSERT INTO judge VALUES(1,'1',1,'C',1);
INSERT INTO judge VALUES(2,'1',2,'B',0);
CREATE TABLE entry (
	id INTEGER PRIMARY KEY, -- marks refer to it
	class TEXT NOT NULL REFERENCES class (name), -- the class entered
	number INTEGER NOT NULL CHECK (number >= 0), -- worn on the arm or the carriage
	driver TEXT NOT NULL CHECK (driver <> ''), -- driver or rider
	horses TEXT NOT NULL CHECK (horses <> ''), -- separated by "; "
	height_cm REAL CHECK (height_cm > 0), -- of the animals, where known
	turnout TEXT CHECK (turnout <> ''), -- what is driven
	groom TEXT CHECK (groom <> ''), -- who is on the carriage too
	club TEXT CHECK (club <> ''), -- whom they drive or ride for
	division TEXT CHECK (division <> ''), -- empty: the class's
	hors_concours INTEGER NOT NULL CHECK (hors_concours IN (0, 1)), -- 1: scored, never placed
	UNIQUE (class, number)
) STRICT;
INSERT INTO entry VALUES(1,'1',7,'Åsa Lind','Tuva',150.0,NULL,'Per Ek',NULL,NULL,0);
INSERT INTO entry VALUES(2,'1',8,'Jon Dahl','Sirius; Vega',NULL,NULL,NULL,NULL,NULL,0);
CREATE TABLE status_change (
	id INTEGER PRIMARY KEY, -- the latest of an entry is how it stands; none: entered
	entry INTEGER NOT NULL REFERENCES entry (id), -- whose
	status TEXT NOT NULL CHECK (status IN ('entered', 'retired', 'eliminated', 'disqualified',
		'withdrawn', 'did not start')), -- what from now on
	why TEXT CHECK (why <> ''), -- the reason given
	who TEXT CHECK (who <> ''), -- who said or typed so
	at TEXT CHECK (at <> '') -- when
) STRICT;
INSERT INTO status_change VALUES(1,2,'withdrawn','lame',NULL,'2026-05-09 18:00:00');
CREATE TABLE penalty (
	id INTEGER PRIMARY KEY, -- the order in which they were announced
	entry INTEGER NOT NULL REFERENCES entry (id), -- whose
	points_x100 INTEGER NOT NULL, -- penalty points; negative takes an earlier row back
	errors INTEGER CHECK (errors BETWEEN 0 AND 9), -- errors of course so far; the latest counts
	article TEXT CHECK (article <> ''), -- of the rulebook
	why TEXT CHECK (why <> ''), -- what happened
	who TEXT CHECK (who <> ''), -- who said or typed so
	at TEXT CHECK (at <> ''), -- when
	CHECK (errors IS NULL OR points_x100 = 0)
) STRICT;
INSERT INTO penalty VALUES(1,1,500,NULL,'groom',NULL,NULL,'2026-05-09 18:00:00');
CREATE TABLE pass (
	id INTEGER PRIMARY KEY, -- rows that were keyed in one go refer to it
	keying INTEGER NOT NULL CHECK (keying IN (1, 2)), -- marks are typed twice
	who TEXT CHECK (who <> ''), -- who typed
	at TEXT CHECK (at <> ''), -- when
	source TEXT CHECK (source <> ''), -- the file, or how else
	why TEXT CHECK (why <> '') -- the reason of a correction
) STRICT;
INSERT INTO pass VALUES(1,1,NULL,'2026-05-09 18:00:00','k.csv',NULL);
CREATE TABLE mark (
	entry INTEGER NOT NULL REFERENCES entry (id), -- whose sheet
	judge INTEGER NOT NULL REFERENCES judge (id), -- whose mark
	item INTEGER NOT NULL REFERENCES item (id), -- for what
	keying INTEGER NOT NULL CHECK (keying IN (1, 2)), -- as typed the first or the second time
	version INTEGER NOT NULL CHECK (version >= 1), -- the latest counts
	mark_x10 INTEGER NOT NULL CHECK (mark_x10 BETWEEN 0 AND 100), -- 0 to 10 in tenths
	pass INTEGER NOT NULL REFERENCES pass (id), -- who typed it, when and why
	remark TEXT CHECK (remark <> ''), -- what the judge wrote beside it
	PRIMARY KEY (entry, judge, item, keying, version)
) STRICT, WITHOUT ROWID;
INSERT INTO mark VALUES(1,1,1,1,1,65,1,NULL);
INSERT INTO mark VALUES(1,1,2,1,1,70,1,NULL);
INSERT INTO mark VALUES(1,2,1,1,1,60,1,NULL);
CREATE TABLE sheet_line (
	entry INTEGER NOT NULL REFERENCES entry (id), -- whose sheet
	judge INTEGER NOT NULL REFERENCES judge (id), -- which judge's
	kind TEXT NOT NULL CHECK (kind IN ('errors', 'total')), -- which line below the boxes
	keying INTEGER NOT NULL CHECK (keying IN (1, 2)), -- as of a mark
	version INTEGER NOT NULL CHECK (version >= 1), -- as of a mark
	value INTEGER NOT NULL, -- errors of course shown; the written sum in ten thousandths
	pass INTEGER NOT NULL REFERENCES pass (id), -- who typed it, when and why
	remark TEXT CHECK (remark <> ''), -- what is written beside it
	PRIMARY KEY (entry, judge, kind, keying, version),
	CHECK (CASE kind WHEN 'errors' THEN value BETWEEN 0 AND 9 ELSE value >= 0 END)
) STRICT, WITHOUT ROWID;
INSERT INTO sheet_line VALUES(1,1,'errors',1,1,1,1,NULL);
CREATE TABLE ring_check (
	id INTEGER PRIMARY KEY, -- the latest of a ring is the one that counts
	ring TEXT NOT NULL REFERENCES ring (name), -- the ring that was measured
	at TEXT CHECK (at <> ''), -- when
	tolerance_m REAL NOT NULL CHECK (tolerance_m > 0), -- how far off a peg may stand
	fit TEXT NOT NULL CHECK (fit IN ('fewest', 'all', 'corners')) -- how the layout was placed
) STRICT;
INSERT INTO ring_check VALUES(1,'Oak ring','2026-05-09 18:00:00',0.10000000000000000555,'fewest');
CREATE TABLE ring_reading (
	ring_check INTEGER NOT NULL REFERENCES ring_check (id), -- the check it belongs to
	seq INTEGER NOT NULL CHECK (seq >= 1), -- the order it was taken in
	from_peg TEXT NOT NULL CHECK (from_peg <> ''), -- a letter or a corner
	to_peg TEXT NOT NULL CHECK (to_peg <> ''), -- the other end of the tape
	distance_m REAL NOT NULL CHECK (distance_m > 0), -- as read
	sigma_m REAL CHECK (sigma_m > 0), -- its standard error, where given
	note TEXT CHECK (note <> ''), -- what was written beside it
	PRIMARY KEY (ring_check, seq)
) STRICT, WITHOUT ROWID;
INSERT INTO ring_reading VALUES(1,1,'AK','FA',40.009999999999998009,NULL,NULL);
INSERT INTO ring_reading VALUES(1,2,'FA','CM',80.019999999999996019,NULL,NULL);
INSERT INTO ring_reading VALUES(1,3,'CM','HC',39.99000000000000199,NULL,NULL);
INSERT INTO ring_reading VALUES(1,4,'HC','AK',80.0,NULL,NULL);
INSERT INTO ring_reading VALUES(1,5,'AK','CM',89.450000000000002842,0.020000000000000000416,'windy');
INSERT INTO ring_reading VALUES(1,6,'FA','HC',89.439999999999997724,NULL,NULL);
CREATE UNIQUE INDEX judge_president ON judge (class) WHERE president = 1;
CREATE INDEX status_change_entry ON status_change (entry);
CREATE INDEX penalty_entry ON penalty (entry);
CREATE INDEX ring_check_ring ON ring_check (ring);
CREATE TRIGGER status_change_no_update BEFORE UPDATE ON status_change
BEGIN
	SELECT RAISE(ABORT, 'status_change is a history: add a row, change none');
END;
CREATE TRIGGER status_change_no_delete BEFORE DELETE ON status_change
BEGIN
	SELECT RAISE(ABORT, 'status_change is a history: add a row, change none');
END;
CREATE TRIGGER penalty_no_update BEFORE UPDATE ON penalty
BEGIN
	SELECT RAISE(ABORT, 'penalty is a history: add a row, change none');
END;
CREATE TRIGGER penalty_no_delete BEFORE DELETE ON penalty
BEGIN
	SELECT RAISE(ABORT, 'penalty is a history: add a row, change none');
END;
CREATE TRIGGER pass_no_update BEFORE UPDATE ON pass
BEGIN
	SELECT RAISE(ABORT, 'pass is a history: add a row, change none');
END;
CREATE TRIGGER pass_no_delete BEFORE DELETE ON pass
BEGIN
	SELECT RAISE(ABORT, 'pass is a history: add a row, change none');
END;
CREATE TRIGGER mark_no_update BEFORE UPDATE ON mark
BEGIN
	SELECT RAISE(ABORT, 'mark is a history: add a row, change none');
END;
CREATE TRIGGER mark_no_delete BEFORE DELETE ON mark
BEGIN
	SELECT RAISE(ABORT, 'mark is a history: add a row, change none');
END;
CREATE TRIGGER sheet_line_no_update BEFORE UPDATE ON sheet_line
BEGIN
	SELECT RAISE(ABORT, 'sheet_line is a history: add a row, change none');
END;
CREATE TRIGGER sheet_line_no_delete BEFORE DELETE ON sheet_line
BEGIN
	SELECT RAISE(ABORT, 'sheet_line is a history: add a row, change none');
END;
CREATE TRIGGER ring_check_no_update BEFORE UPDATE ON ring_check
BEGIN
	SELECT RAISE(ABORT, 'ring_check is a history: add a row, change none');
END;
CREATE TRIGGER ring_check_no_delete BEFORE DELETE ON ring_check
BEGIN
	SELECT RAISE(ABORT, 'ring_check is a history: add a row, change none');
END;
CREATE TRIGGER ring_reading_no_update BEFORE UPDATE ON ring_reading
BEGIN
	SELECT RAISE(ABORT, 'ring_reading is a history: add a row, change none');
END;
CREATE TRIGGER ring_reading_no_delete BEFORE DELETE ON ring_reading
BEGIN
	SELECT RAISE(ABORT, 'ring_reading is a history: add a row, change none');
END;
COMMIT;
