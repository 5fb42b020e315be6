PRAGMA application_id = 1413696322;
PRAGMA user_version = 3;
BEGIN TRANSACTION;
CREATE TABLE action (
	id INTEGER NOT NULL, 
	what VARCHAR NOT NULL, 
	"on" DATE NOT NULL, 
	written_at DATETIME NOT NULL, 
	undoes INTEGER, 
	redoes INTEGER, 
	"key" VARCHAR, 
	PRIMARY KEY (id), 
	FOREIGN KEY(undoes) REFERENCES action (id), 
	FOREIGN KEY(redoes) REFERENCES action (id), 
	UNIQUE ("key")
);
INSERT INTO "action" VALUES(1,'add','2026-03-05','2026-11-26 14:03:12.036096',NULL,NULL,NULL);
INSERT INTO "action" VALUES(2,'add','2026-03-05','2026-11-26 14:03:12.114329',NULL,NULL,NULL);
INSERT INTO "action" VALUES(3,'add','2026-03-05','2026-11-26 14:03:12.150818',NULL,NULL,NULL);
INSERT INTO "action" VALUES(4,'add','2026-03-05','2026-11-26 14:03:12.195229',NULL,NULL,NULL);
INSERT INTO "action" VALUES(5,'add','2026-03-05','2026-11-26 14:03:12.238343',NULL,NULL,NULL);
INSERT INTO "action" VALUES(6,'add','2026-03-05','2026-11-26 14:03:12.278816',NULL,NULL,NULL);
INSERT INTO "action" VALUES(7,'add','2026-03-05','2026-11-26 14:03:12.322164',NULL,NULL,NULL);
INSERT INTO "action" VALUES(8,'add','2026-03-05','2026-11-26 14:03:12.358569',NULL,NULL,NULL);
INSERT INTO "action" VALUES(9,'add','2026-03-05','2026-11-26 14:03:12.406498',NULL,NULL,NULL);
INSERT INTO "action" VALUES(10,'add','2026-03-05','2026-11-26 14:03:12.455035',NULL,NULL,NULL);
INSERT INTO "action" VALUES(11,'tie 1 × pole-canal-shot','2026-03-05','2026-11-26 14:03:12.587861',NULL,NULL,NULL);
INSERT INTO "action" VALUES(12,'strip A01T','2026-03-05','2026-11-26 14:03:12.651617',NULL,NULL,NULL);
INSERT INTO "action" VALUES(13,'tie 1 × pole-canal-shot','2026-03-05','2026-11-26 14:03:12.734102',NULL,NULL,NULL);
INSERT INTO "action" VALUES(14,'tie 1 × hooklength-fine','2026-03-05','2026-11-26 14:03:12.802851',NULL,NULL,NULL);
INSERT INTO "action" VALUES(15,'lost A03P','2026-03-05','2026-11-26 14:03:12.846655',NULL,NULL,NULL);
INSERT INTO "action" VALUES(16,'tie 2 × hooklength-fine','2026-03-05','2026-11-26 14:03:12.894545',NULL,NULL,NULL);
INSERT INTO "action" VALUES(17,'undo of tie 2 × hooklength-fine','2026-03-05','2026-11-26 14:03:12.943078',16,NULL,NULL);
INSERT INTO "action" VALUES(18,'add','2026-03-05','2026-11-26 14:03:13.022174',NULL,NULL,NULL);
INSERT INTO "action" VALUES(19,'undo of add','2026-03-05','2026-11-26 14:03:13.058762',18,NULL,NULL);
INSERT INTO "action" VALUES(20,'pull test of nylon 0.12 mm 1.6 kg','2026-03-05','2026-11-26 14:03:13.115504',NULL,NULL,NULL);
INSERT INTO "action" VALUES(21,'edit','2026-03-05','2026-11-26 14:03:13.145851',NULL,NULL,NULL);
INSERT INTO "action" VALUES(22,'label A02R','2026-03-05','2026-11-26 14:03:13.185870',NULL,NULL,NULL);
CREATE TABLE change (
	id INTEGER NOT NULL, 
	action_id INTEGER NOT NULL, 
	table_name VARCHAR NOT NULL, 
	row_key VARCHAR NOT NULL, 
	column_name VARCHAR NOT NULL, 
	was VARCHAR NOT NULL, 
	became VARCHAR NOT NULL, 
	PRIMARY KEY (id), 
	FOREIGN KEY(action_id) REFERENCES action (id)
);
INSERT INTO "change" VALUES(1,19,'item','11','withdrawn','0','1');
INSERT INTO "change" VALUES(2,21,'item','2','minimum','0','20000');
INSERT INTO "change" VALUES(3,21,'item','2','place','""','"drawer 2"');
INSERT INTO "change" VALUES(4,22,'tied','2','labelled_on','null','"2026-03-05"');
INSERT INTO "change" VALUES(5,22,'sheetinuse','a4-65','next_free','1','2');
CREATE TABLE debrief (
	id INTEGER NOT NULL, 
	action_id INTEGER NOT NULL, 
	"match" VARCHAR NOT NULL, 
	venue VARCHAR NOT NULL, 
	"on" DATE NOT NULL, 
	peg VARCHAR NOT NULL, 
	weight_g FLOAT, 
	notes VARCHAR NOT NULL, 
	corrects INTEGER, 
	PRIMARY KEY (id), 
	FOREIGN KEY(action_id) REFERENCES action (id), 
	FOREIGN KEY(corrects) REFERENCES debrief (id)
);
CREATE TABLE debriefrig (
	id INTEGER NOT NULL, 
	debrief_id INTEGER NOT NULL, 
	tied_id INTEGER NOT NULL, 
	became VARCHAR NOT NULL, 
	did_well BOOLEAN NOT NULL, 
	PRIMARY KEY (id), 
	FOREIGN KEY(debrief_id) REFERENCES debrief (id), 
	FOREIGN KEY(tied_id) REFERENCES tied (id)
);
CREATE TABLE elastic (
	item_id INTEGER NOT NULL, 
	grade FLOAT NOT NULL, 
	colour VARCHAR NOT NULL, 
	PRIMARY KEY (item_id), 
	FOREIGN KEY(item_id) REFERENCES item (id)
);
INSERT INTO "elastic" VALUES(9,4.0,'');
CREATE TABLE feeder (
	item_id INTEGER NOT NULL, 
	shape VARCHAR NOT NULL, 
	mass_g FLOAT NOT NULL, 
	volume_ml FLOAT, 
	PRIMARY KEY (item_id), 
	FOREIGN KEY(item_id) REFERENCES item (id)
);
CREATE TABLE float (
	item_id INTEGER NOT NULL, 
	shape VARCHAR NOT NULL, 
	mark VARCHAR NOT NULL, 
	capacity_g FLOAT NOT NULL, 
	tip_diameter_mm FLOAT, 
	tip_length_mm FLOAT, 
	PRIMARY KEY (item_id), 
	FOREIGN KEY(item_id) REFERENCES item (id)
);
INSERT INTO "float" VALUES(4,'pole','4×12',0.2,NULL,NULL);
INSERT INTO "float" VALUES(5,'pole','4×12',0.2,1.2,NULL);
CREATE TABLE hook (
	item_id INTEGER NOT NULL, 
	size VARCHAR NOT NULL, 
	size_order FLOAT NOT NULL, 
	"end" VARCHAR NOT NULL, 
	barb VARCHAR NOT NULL, 
	wire VARCHAR NOT NULL, 
	PRIMARY KEY (item_id), 
	FOREIGN KEY(item_id) REFERENCES item (id)
);
INSERT INTO "hook" VALUES(3,'20',-20.0,'spade','barbless','');
INSERT INTO "hook" VALUES(11,'22',-22.0,'spade','barbless','');
CREATE TABLE identity (
	id INTEGER NOT NULL, 
	box VARCHAR NOT NULL, 
	stamp VARCHAR NOT NULL, 
	changes INTEGER NOT NULL, 
	PRIMARY KEY (id), 
	CONSTRAINT one_row CHECK (id = 1)
);
INSERT INTO "identity" VALUES(1,'c284ef16114b295bec5040a3d8322639','c36cf8bded1384215bb875fe870e97ed',143);
CREATE TABLE item (
	id INTEGER NOT NULL, 
	kind VARCHAR NOT NULL, 
	words VARCHAR NOT NULL, 
	name VARCHAR NOT NULL, 
	place VARCHAR NOT NULL, 
	pack_size INTEGER NOT NULL, 
	pack_price_cents INTEGER, 
	minimum INTEGER NOT NULL, 
	on_hand INTEGER NOT NULL, 
	last_movement INTEGER NOT NULL, 
	added_on DATE NOT NULL, 
	withdrawn BOOLEAN NOT NULL, 
	PRIMARY KEY (id), 
	CONSTRAINT never_below_zero CHECK (on_hand >= 0)
);
INSERT INTO "item" VALUES(1,'line','nylon 0.08 mm 0.7 kg','nylon 0.08 mm 0.7 kg','',50000,NULL,0,49650,27,'2026-03-05',0);
INSERT INTO "item" VALUES(2,'line','nylon 0.12 mm 1.6 kg','nylon 0.12 mm 1.6 kg','drawer 2',50000,NULL,20000,46420,18,'2026-03-05',0);
INSERT INTO "item" VALUES(3,'hook','hook 20 barbless spade','hook 20 barbless spade','',10,NULL,0,9,28,'2026-03-05',0);
INSERT INTO "item" VALUES(4,'float','pole 4×12','pole 4×12','',1,NULL,0,0,19,'2026-03-05',0);
INSERT INTO "item" VALUES(5,'float','pole 4×12 tip 1.2 mm','pole 4×12 tip 1.2 mm','',1,NULL,0,1,5,'2026-03-05',0);
INSERT INTO "item" VALUES(6,'weight','shot No 8 tin','shot No 8 tin','',20,NULL,0,16,20,'2026-03-05',0);
INSERT INTO "item" VALUES(7,'weight','shot No 10 tin','shot No 10 tin','',20,NULL,0,16,21,'2026-03-05',0);
INSERT INTO "item" VALUES(8,'winder','winder 13 cm 18 mm','winder 13 cm 18 mm','',1,NULL,0,0,22,'2026-03-05',0);
INSERT INTO "item" VALUES(9,'elastic','elastic 4','elastic 4','',6000,NULL,0,6000,9,'2026-03-05',0);
INSERT INTO "item" VALUES(10,'part','connector','connector','',4,NULL,0,4,10,'2026-03-05',0);
INSERT INTO "item" VALUES(11,'hook','hook 22 barbless spade','undone','',10,NULL,0,0,30,'2026-03-05',1);
CREATE TABLE line (
	item_id INTEGER NOT NULL, 
	material VARCHAR NOT NULL, 
	diameter_mm FLOAT NOT NULL, 
	breaks_at_kg FLOAT, 
	colour VARCHAR NOT NULL, 
	PRIMARY KEY (item_id), 
	FOREIGN KEY(item_id) REFERENCES item (id)
);
INSERT INTO "line" VALUES(1,'nylon',0.08,0.7,'');
INSERT INTO "line" VALUES(2,'nylon',0.12,1.6,'');
CREATE TABLE measurement (
	id INTEGER NOT NULL, 
	item_id INTEGER NOT NULL, 
	what VARCHAR NOT NULL, 
	breaks_at_kg FLOAT, 
	mass_g FLOAT, 
	knot VARCHAR NOT NULL, 
	count INTEGER NOT NULL, 
	takes_back INTEGER, 
	"on" DATE NOT NULL, 
	action_id INTEGER, 
	PRIMARY KEY (id), 
	FOREIGN KEY(item_id) REFERENCES item (id), 
	FOREIGN KEY(takes_back) REFERENCES measurement (id), 
	FOREIGN KEY(action_id) REFERENCES action (id)
);
INSERT INTO "measurement" VALUES(1,2,'pull',1.5,NULL,'',1,NULL,'2026-03-05',20);
CREATE TABLE movement (
	id INTEGER NOT NULL, 
	item_id INTEGER NOT NULL, 
	action_id INTEGER NOT NULL, 
	amount INTEGER NOT NULL, 
	why VARCHAR NOT NULL, 
	"on" DATE NOT NULL, 
	reason VARCHAR NOT NULL, 
	PRIMARY KEY (id), 
	FOREIGN KEY(item_id) REFERENCES item (id), 
	FOREIGN KEY(action_id) REFERENCES action (id)
);
INSERT INTO "movement" VALUES(1,1,1,50000,'bought','2026-03-05','');
INSERT INTO "movement" VALUES(2,2,2,50000,'bought','2026-03-05','');
INSERT INTO "movement" VALUES(3,3,3,10,'bought','2026-03-05','');
INSERT INTO "movement" VALUES(4,4,4,1,'bought','2026-03-05','');
INSERT INTO "movement" VALUES(5,5,5,1,'bought','2026-03-05','');
INSERT INTO "movement" VALUES(6,6,6,20,'bought','2026-03-05','');
INSERT INTO "movement" VALUES(7,7,7,20,'bought','2026-03-05','');
INSERT INTO "movement" VALUES(8,8,8,1,'bought','2026-03-05','');
INSERT INTO "movement" VALUES(9,9,9,6000,'bought','2026-03-05','');
INSERT INTO "movement" VALUES(10,10,10,4,'bought','2026-03-05','');
INSERT INTO "movement" VALUES(11,2,11,-1790,'tied','2026-03-05','pole-canal-shot');
INSERT INTO "movement" VALUES(12,4,11,-1,'tied','2026-03-05','pole-canal-shot');
INSERT INTO "movement" VALUES(13,6,11,-2,'tied','2026-03-05','pole-canal-shot');
INSERT INTO "movement" VALUES(14,7,11,-2,'tied','2026-03-05','pole-canal-shot');
INSERT INTO "movement" VALUES(15,8,11,-1,'tied','2026-03-05','pole-canal-shot');
INSERT INTO "movement" VALUES(16,4,12,1,'given back','2026-03-05','float of A01T');
INSERT INTO "movement" VALUES(17,8,12,1,'given back','2026-03-05','winder of A01T');
INSERT INTO "movement" VALUES(18,2,13,-1790,'tied','2026-03-05','pole-canal-shot');
INSERT INTO "movement" VALUES(19,4,13,-1,'tied','2026-03-05','pole-canal-shot');
INSERT INTO "movement" VALUES(20,6,13,-2,'tied','2026-03-05','pole-canal-shot');
INSERT INTO "movement" VALUES(21,7,13,-2,'tied','2026-03-05','pole-canal-shot');
INSERT INTO "movement" VALUES(22,8,13,-1,'tied','2026-03-05','pole-canal-shot');
INSERT INTO "movement" VALUES(23,1,14,-350,'tied','2026-03-05','hooklength-fine');
INSERT INTO "movement" VALUES(24,3,14,-1,'tied','2026-03-05','hooklength-fine');
INSERT INTO "movement" VALUES(25,1,16,-700,'tied','2026-03-05','hooklength-fine');
INSERT INTO "movement" VALUES(26,3,16,-2,'tied','2026-03-05','hooklength-fine');
INSERT INTO "movement" VALUES(27,1,17,700,'corrected','2026-03-05','against movement 25');
INSERT INTO "movement" VALUES(28,3,17,2,'corrected','2026-03-05','against movement 26');
INSERT INTO "movement" VALUES(29,11,18,10,'bought','2026-03-05','');
INSERT INTO "movement" VALUES(30,11,19,-10,'corrected','2026-03-05','against movement 29');
CREATE TABLE part (
	item_id INTEGER NOT NULL, 
	sort VARCHAR NOT NULL, 
	size VARCHAR NOT NULL, 
	breaks_at_kg FLOAT, 
	PRIMARY KEY (item_id), 
	FOREIGN KEY(item_id) REFERENCES item (id)
);
INSERT INTO "part" VALUES(10,'connector','',NULL);
CREATE TABLE sheetinuse (
	paper VARCHAR NOT NULL, 
	next_free INTEGER NOT NULL, 
	PRIMARY KEY (paper)
);
INSERT INTO "sheetinuse" VALUES('a4-65',2);
CREATE TABLE statechange (
	id INTEGER NOT NULL, 
	tied_id INTEGER NOT NULL, 
	action_id INTEGER NOT NULL, 
	was VARCHAR NOT NULL, 
	became VARCHAR NOT NULL, 
	PRIMARY KEY (id), 
	FOREIGN KEY(tied_id) REFERENCES tied (id), 
	FOREIGN KEY(action_id) REFERENCES action (id)
);
INSERT INTO "statechange" VALUES(1,1,12,'ready','stripped');
INSERT INTO "statechange" VALUES(2,3,15,'ready','lost');
INSERT INTO "statechange" VALUES(3,4,17,'ready','untied');
INSERT INTO "statechange" VALUES(4,5,17,'ready','untied');
CREATE TABLE tied (
	id INTEGER NOT NULL, 
	code VARCHAR NOT NULL, 
	code_number INTEGER NOT NULL, 
	recipe VARCHAR NOT NULL, 
	kind VARCHAR NOT NULL, 
	state VARCHAR NOT NULL, 
	tied_on DATE NOT NULL, 
	labelled_on DATE, 
	forced_because VARCHAR NOT NULL, 
	snapshot VARCHAR NOT NULL, 
	action_id INTEGER NOT NULL, 
	PRIMARY KEY (id), 
	UNIQUE (code), 
	UNIQUE (code_number), 
	FOREIGN KEY(action_id) REFERENCES action (id)
);
INSERT INTO "tied" VALUES(1,'A01T',1,'pole-canal-shot','rig','stripped','2026-03-05',NULL,'','{"carries": "pole 4×12", "code": "A01T", "hook": "20 barbless spade", "hooklength": "15 cm nylon 0.08 mm 0.7 kg", "kind": "rig", "length_mm": 1550.0, "marks": [{"from_hook_mm": 1700.0, "held": "", "kind": "", "mass_g": 0.0, "side_mm": 0.0, "what": "elastic", "words": "elastic 4"}, {"from_hook_mm": 1700.0, "held": "", "kind": "connector", "mass_g": 0.0, "side_mm": 0.0, "what": "connector", "words": "connector"}, {"from_hook_mm": 1700.0, "held": "", "kind": "figure-of-eight loop", "mass_g": 0.0, "side_mm": 0.0, "what": "loop", "words": "rig line"}, {"from_hook_mm": 1200.0, "held": "two points", "kind": "pole", "mass_g": 0.0, "side_mm": 0.0, "what": "float", "words": "pole 4×12"}, {"from_hook_mm": 500.0, "held": "", "kind": "No 8", "mass_g": 0.06, "side_mm": 0.0, "what": "shot", "words": "bulk"}, {"from_hook_mm": 500.0, "held": "", "kind": "No 8", "mass_g": 0.06, "side_mm": 0.0, "what": "shot", "words": "bulk"}, {"from_hook_mm": 350.0, "held": "", "kind": "No 10", "mass_g": 0.04, "side_mm": 0.0, "what": "shot", "words": "droppers"}, {"from_hook_mm": 200.0, "held": "", "kind": "No 10", "mass_g": 0.04, "side_mm": 0.0, "what": "shot", "words": "droppers"}, {"from_hook_mm": 150.0, "held": "", "kind": "figure-of-eight loop", "mass_g": 0.0, "side_mm": 0.0, "what": "loop", "words": "rig line"}, {"from_hook_mm": 150.0, "held": "", "kind": "figure-of-eight loop", "mass_g": 0.0, "side_mm": 0.0, "what": "loop", "words": "hooklength line"}, {"from_hook_mm": 0.0, "held": "", "kind": "20", "mass_g": 0.0, "side_mm": 0.0, "what": "hook", "words": "hook 20 barbless spade"}], "method": "pole", "name": "Canal pole, shot", "outcome": "sound", "purpose": "small roach and gudgeon, canal, down the far shelf", "recipe": "pole-canal-shot", "rig_line": "nylon 0.12 mm 1.6 kg", "set_for": "depth 120 cm", "shot": "2 No 8 at 50 cm, 2 No 10 20–35 cm", "size": "4×12", "tied_on": "2026-03-05"}',11);
INSERT INTO "tied" VALUES(2,'A02R',2,'pole-canal-shot','rig','ready','2026-03-05','2026-03-05','','{"carries": "pole 4×12", "code": "A02R", "hook": "20 barbless spade", "hooklength": "15 cm nylon 0.08 mm 0.7 kg", "kind": "rig", "length_mm": 1550.0, "marks": [{"from_hook_mm": 1700.0, "held": "", "kind": "", "mass_g": 0.0, "side_mm": 0.0, "what": "elastic", "words": "elastic 4"}, {"from_hook_mm": 1700.0, "held": "", "kind": "connector", "mass_g": 0.0, "side_mm": 0.0, "what": "connector", "words": "connector"}, {"from_hook_mm": 1700.0, "held": "", "kind": "figure-of-eight loop", "mass_g": 0.0, "side_mm": 0.0, "what": "loop", "words": "rig line"}, {"from_hook_mm": 1200.0, "held": "two points", "kind": "pole", "mass_g": 0.0, "side_mm": 0.0, "what": "float", "words": "pole 4×12"}, {"from_hook_mm": 500.0, "held": "", "kind": "No 8", "mass_g": 0.06, "side_mm": 0.0, "what": "shot", "words": "bulk"}, {"from_hook_mm": 500.0, "held": "", "kind": "No 8", "mass_g": 0.06, "side_mm": 0.0, "what": "shot", "words": "bulk"}, {"from_hook_mm": 350.0, "held": "", "kind": "No 10", "mass_g": 0.04, "side_mm": 0.0, "what": "shot", "words": "droppers"}, {"from_hook_mm": 200.0, "held": "", "kind": "No 10", "mass_g": 0.04, "side_mm": 0.0, "what": "shot", "words": "droppers"}, {"from_hook_mm": 150.0, "held": "", "kind": "figure-of-eight loop", "mass_g": 0.0, "side_mm": 0.0, "what": "loop", "words": "rig line"}, {"from_hook_mm": 150.0, "held": "", "kind": "figure-of-eight loop", "mass_g": 0.0, "side_mm": 0.0, "what": "loop", "words": "hooklength line"}, {"from_hook_mm": 0.0, "held": "", "kind": "20", "mass_g": 0.0, "side_mm": 0.0, "what": "hook", "words": "hook 20 barbless spade"}], "method": "pole", "name": "Canal pole, shot", "outcome": "sound", "purpose": "small roach and gudgeon, canal, down the far shelf", "recipe": "pole-canal-shot", "rig_line": "nylon 0.12 mm 1.6 kg", "set_for": "depth 120 cm", "shot": "2 No 8 at 50 cm, 2 No 10 20–35 cm", "size": "4×12", "tied_on": "2026-03-05"}',13);
INSERT INTO "tied" VALUES(3,'A03P',3,'hooklength-fine','hooklength','lost','2026-03-05',NULL,'','{"carries": "", "code": "A03P", "hook": "20 barbless spade", "hooklength": "15 cm nylon 0.08 mm 0.7 kg", "kind": "hooklength", "length_mm": 150.0, "marks": [{"from_hook_mm": 150.0, "held": "", "kind": "figure-of-eight loop", "mass_g": 0.0, "side_mm": 0.0, "what": "loop", "words": "hooklength line"}, {"from_hook_mm": 0.0, "held": "", "kind": "20", "mass_g": 0.0, "side_mm": 0.0, "what": "hook", "words": "hook 20 barbless spade"}], "method": "float", "name": "Fine hooklength", "outcome": "sound", "purpose": "small roach and gudgeon on fine line", "recipe": "hooklength-fine", "rig_line": "", "set_for": "", "shot": "", "size": "15 cm", "tied_on": "2026-03-05"}',14);
INSERT INTO "tied" VALUES(4,'A04N',4,'hooklength-fine','hooklength','untied','2026-03-05',NULL,'','{"carries": "", "code": "A04N", "hook": "20 barbless spade", "hooklength": "15 cm nylon 0.08 mm 0.7 kg", "kind": "hooklength", "length_mm": 150.0, "marks": [{"from_hook_mm": 150.0, "held": "", "kind": "figure-of-eight loop", "mass_g": 0.0, "side_mm": 0.0, "what": "loop", "words": "hooklength line"}, {"from_hook_mm": 0.0, "held": "", "kind": "20", "mass_g": 0.0, "side_mm": 0.0, "what": "hook", "words": "hook 20 barbless spade"}], "method": "float", "name": "Fine hooklength", "outcome": "sound", "purpose": "small roach and gudgeon on fine line", "recipe": "hooklength-fine", "rig_line": "", "set_for": "", "shot": "", "size": "15 cm", "tied_on": "2026-03-05"}',16);
INSERT INTO "tied" VALUES(5,'A05L',5,'hooklength-fine','hooklength','untied','2026-03-05',NULL,'','{"carries": "", "code": "A05L", "hook": "20 barbless spade", "hooklength": "15 cm nylon 0.08 mm 0.7 kg", "kind": "hooklength", "length_mm": 150.0, "marks": [{"from_hook_mm": 150.0, "held": "", "kind": "figure-of-eight loop", "mass_g": 0.0, "side_mm": 0.0, "what": "loop", "words": "hooklength line"}, {"from_hook_mm": 0.0, "held": "", "kind": "20", "mass_g": 0.0, "side_mm": 0.0, "what": "hook", "words": "hook 20 barbless spade"}], "method": "float", "name": "Fine hooklength", "outcome": "sound", "purpose": "small roach and gudgeon on fine line", "recipe": "hooklength-fine", "rig_line": "", "set_for": "", "shot": "", "size": "15 cm", "tied_on": "2026-03-05"}',16);
CREATE TABLE tieduse (
	id INTEGER NOT NULL, 
	tied_id INTEGER NOT NULL, 
	item_id INTEGER NOT NULL, 
	part VARCHAR NOT NULL, 
	amount INTEGER NOT NULL, 
	comes_back BOOLEAN NOT NULL, 
	PRIMARY KEY (id), 
	FOREIGN KEY(tied_id) REFERENCES tied (id), 
	FOREIGN KEY(item_id) REFERENCES item (id)
);
INSERT INTO "tieduse" VALUES(1,1,2,'rig line',1790,0);
INSERT INTO "tieduse" VALUES(2,1,4,'float',1,1);
INSERT INTO "tieduse" VALUES(3,1,6,'shot No 8',2,0);
INSERT INTO "tieduse" VALUES(4,1,7,'shot No 10',2,0);
INSERT INTO "tieduse" VALUES(5,1,8,'winder',1,1);
INSERT INTO "tieduse" VALUES(6,2,2,'rig line',1790,0);
INSERT INTO "tieduse" VALUES(7,2,4,'float',1,1);
INSERT INTO "tieduse" VALUES(8,2,6,'shot No 8',2,0);
INSERT INTO "tieduse" VALUES(9,2,7,'shot No 10',2,0);
INSERT INTO "tieduse" VALUES(10,2,8,'winder',1,1);
INSERT INTO "tieduse" VALUES(11,3,1,'hooklength line',350,0);
INSERT INTO "tieduse" VALUES(12,3,3,'hook',1,0);
INSERT INTO "tieduse" VALUES(13,4,1,'hooklength line',350,0);
INSERT INTO "tieduse" VALUES(14,5,1,'hooklength line',350,0);
INSERT INTO "tieduse" VALUES(15,4,3,'hook',1,0);
INSERT INTO "tieduse" VALUES(16,5,3,'hook',1,0);
CREATE TABLE weight (
	item_id INTEGER NOT NULL, 
	form VARCHAR NOT NULL, 
	mark VARCHAR NOT NULL, 
	mass_g FLOAT NOT NULL, 
	material VARCHAR NOT NULL, 
	PRIMARY KEY (item_id), 
	FOREIGN KEY(item_id) REFERENCES item (id)
);
INSERT INTO "weight" VALUES(6,'shot','No 8',0.06,'tin');
INSERT INTO "weight" VALUES(7,'shot','No 10',0.04,'tin');
CREATE TABLE winder (
	item_id INTEGER NOT NULL, 
	length_mm FLOAT NOT NULL, 
	width_mm FLOAT NOT NULL, 
	PRIMARY KEY (item_id), 
	FOREIGN KEY(item_id) REFERENCES item (id)
);
INSERT INTO "winder" VALUES(8,130.0,18.0);
CREATE INDEX ix_item_kind ON item (kind);
CREATE UNIQUE INDEX one_item_of_a_name ON item (name) WHERE NOT withdrawn;
CREATE INDEX ix_item_words ON item (words);
CREATE INDEX ix_action_reversals ON action (id) WHERE undoes IS NOT NULL OR redoes IS NOT NULL;
CREATE INDEX ix_change_action_id ON change (action_id);
CREATE INDEX ix_movement_item_id ON movement (item_id);
CREATE INDEX ix_movement_action_id ON movement (action_id);
CREATE INDEX ix_measurement_action_id ON measurement (action_id);
CREATE INDEX ix_measurement_item_id ON measurement (item_id);
CREATE INDEX ix_tied_recipe ON tied (recipe);
CREATE INDEX ix_tied_state ON tied (state);
CREATE INDEX ix_debrief_action_id ON debrief (action_id);
CREATE INDEX ix_debrief_match ON debrief ("match");
CREATE INDEX ix_tieduse_tied_id ON tieduse (tied_id);
CREATE INDEX ix_tieduse_item_id ON tieduse (item_id);
CREATE INDEX ix_statechange_tied_id ON statechange (tied_id);
CREATE INDEX ix_statechange_action_id ON statechange (action_id);
CREATE INDEX ix_debriefrig_debrief_id ON debriefrig (debrief_id);
CREATE INDEX ix_debriefrig_tied_id ON debriefrig (tied_id);
CREATE TRIGGER movement_moves_stock AFTER INSERT ON movement BEGIN
         UPDATE item SET on_hand = on_hand + NEW.amount, last_movement = NEW.id
           WHERE id = NEW.item_id;
       END;
CREATE TRIGGER stock_moves_by_movements BEFORE UPDATE OF on_hand, last_movement ON item
         WHEN (NEW.on_hand <> OLD.on_hand OR NEW.last_movement <> OLD.last_movement)
          AND (NEW.last_movement <= OLD.last_movement
               OR NEW.on_hand - OLD.on_hand IS NOT
                  (SELECT amount FROM movement WHERE id = NEW.last_movement AND item_id = NEW.id))
       BEGIN SELECT RAISE(ABORT, 'what is on hand changes by movements alone'); END;
CREATE TRIGGER stock_begins_at_nothing BEFORE INSERT ON item WHEN NEW.on_hand <> 0 OR NEW.last_movement <> 0 BEGIN SELECT RAISE(ABORT, 'what is on hand changes by movements alone'); END;
CREATE TRIGGER item_is_never_replaced BEFORE INSERT ON item WHEN EXISTS (SELECT 1 FROM item WHERE id = NEW.id) BEGIN SELECT RAISE(ABORT, 'items are never replaced'); END;
CREATE TRIGGER item_keeps_its_number BEFORE UPDATE OF id ON item WHEN NEW.id <> OLD.id BEGIN SELECT RAISE(ABORT, 'items keep their numbers'); END;
CREATE TRIGGER item_stays_what_it_is BEFORE UPDATE OF kind, words, added_on ON item
           WHEN NEW.kind <> OLD.kind OR NEW.words <> OLD.words OR NEW.added_on <> OLD.added_on BEGIN SELECT RAISE(ABORT, 'what an item is is never changed'); END;
CREATE TRIGGER item_is_never_deleted BEFORE DELETE ON item BEGIN SELECT RAISE(ABORT, 'items are never deleted'); END;
CREATE TRIGGER line_is_never_changed BEFORE UPDATE ON line BEGIN SELECT RAISE(ABORT, 'figures are never changed'); END;
CREATE TRIGGER line_is_never_deleted BEFORE DELETE ON line BEGIN SELECT RAISE(ABORT, 'figures are never deleted'); END;
CREATE TRIGGER line_is_never_replaced BEFORE INSERT ON line WHEN EXISTS (SELECT 1 FROM line WHERE item_id = NEW.item_id) BEGIN SELECT RAISE(ABORT, 'figures are never replaced'); END;
CREATE TRIGGER hook_is_never_changed BEFORE UPDATE ON hook BEGIN SELECT RAISE(ABORT, 'figures are never changed'); END;
CREATE TRIGGER hook_is_never_deleted BEFORE DELETE ON hook BEGIN SELECT RAISE(ABORT, 'figures are never deleted'); END;
CREATE TRIGGER hook_is_never_replaced BEFORE INSERT ON hook WHEN EXISTS (SELECT 1 FROM hook WHERE item_id = NEW.item_id) BEGIN SELECT RAISE(ABORT, 'figures are never replaced'); END;
CREATE TRIGGER float_is_never_changed BEFORE UPDATE ON float BEGIN SELECT RAISE(ABORT, 'figures are never changed'); END;
CREATE TRIGGER float_is_never_deleted BEFORE DELETE ON float BEGIN SELECT RAISE(ABORT, 'figures are never deleted'); END;
CREATE TRIGGER float_is_never_replaced BEFORE INSERT ON float WHEN EXISTS (SELECT 1 FROM float WHERE item_id = NEW.item_id) BEGIN SELECT RAISE(ABORT, 'figures are never replaced'); END;
CREATE TRIGGER weight_is_never_changed BEFORE UPDATE ON weight BEGIN SELECT RAISE(ABORT, 'figures are never changed'); END;
CREATE TRIGGER weight_is_never_deleted BEFORE DELETE ON weight BEGIN SELECT RAISE(ABORT, 'figures are never deleted'); END;
CREATE TRIGGER weight_is_never_replaced BEFORE INSERT ON weight WHEN EXISTS (SELECT 1 FROM weight WHERE item_id = NEW.item_id) BEGIN SELECT RAISE(ABORT, 'figures are never replaced'); END;
CREATE TRIGGER feeder_is_never_changed BEFORE UPDATE ON feeder BEGIN SELECT RAISE(ABORT, 'figures are never changed'); END;
CREATE TRIGGER feeder_is_never_deleted BEFORE DELETE ON feeder BEGIN SELECT RAISE(ABORT, 'figures are never deleted'); END;
CREATE TRIGGER feeder_is_never_replaced BEFORE INSERT ON feeder WHEN EXISTS (SELECT 1 FROM feeder WHERE item_id = NEW.item_id) BEGIN SELECT RAISE(ABORT, 'figures are never replaced'); END;
CREATE TRIGGER part_is_never_changed BEFORE UPDATE ON part BEGIN SELECT RAISE(ABORT, 'figures are never changed'); END;
CREATE TRIGGER part_is_never_deleted BEFORE DELETE ON part BEGIN SELECT RAISE(ABORT, 'figures are never deleted'); END;
CREATE TRIGGER part_is_never_replaced BEFORE INSERT ON part WHEN EXISTS (SELECT 1 FROM part WHERE item_id = NEW.item_id) BEGIN SELECT RAISE(ABORT, 'figures are never replaced'); END;
CREATE TRIGGER elastic_is_never_changed BEFORE UPDATE ON elastic BEGIN SELECT RAISE(ABORT, 'figures are never changed'); END;
CREATE TRIGGER elastic_is_never_deleted BEFORE DELETE ON elastic BEGIN SELECT RAISE(ABORT, 'figures are never deleted'); END;
CREATE TRIGGER elastic_is_never_replaced BEFORE INSERT ON elastic WHEN EXISTS (SELECT 1 FROM elastic WHERE item_id = NEW.item_id) BEGIN SELECT RAISE(ABORT, 'figures are never replaced'); END;
CREATE TRIGGER winder_is_never_changed BEFORE UPDATE ON winder BEGIN SELECT RAISE(ABORT, 'figures are never changed'); END;
CREATE TRIGGER winder_is_never_deleted BEFORE DELETE ON winder BEGIN SELECT RAISE(ABORT, 'figures are never deleted'); END;
CREATE TRIGGER winder_is_never_replaced BEFORE INSERT ON winder WHEN EXISTS (SELECT 1 FROM winder WHERE item_id = NEW.item_id) BEGIN SELECT RAISE(ABORT, 'figures are never replaced'); END;
CREATE TRIGGER movement_is_never_changed BEFORE UPDATE ON movement BEGIN SELECT RAISE(ABORT, 'movements are never changed'); END;
CREATE TRIGGER movement_is_never_deleted BEFORE DELETE ON movement BEGIN SELECT RAISE(ABORT, 'movements are never deleted'); END;
CREATE TRIGGER movement_is_never_replaced BEFORE INSERT ON movement WHEN EXISTS (SELECT 1 FROM movement WHERE id = NEW.id) BEGIN SELECT RAISE(ABORT, 'movements are never replaced'); END;
CREATE TRIGGER measurement_is_never_changed BEFORE UPDATE ON measurement BEGIN SELECT RAISE(ABORT, 'measurements are never changed'); END;
CREATE TRIGGER measurement_is_never_deleted BEFORE DELETE ON measurement BEGIN SELECT RAISE(ABORT, 'measurements are never deleted'); END;
CREATE TRIGGER measurement_is_never_replaced BEFORE INSERT ON measurement WHEN EXISTS (SELECT 1 FROM measurement WHERE id = NEW.id) BEGIN SELECT RAISE(ABORT, 'measurements are never replaced'); END;
CREATE TRIGGER tieduse_is_never_changed BEFORE UPDATE ON tieduse BEGIN SELECT RAISE(ABORT, 'uses of tied rigs are never changed'); END;
CREATE TRIGGER tieduse_is_never_deleted BEFORE DELETE ON tieduse BEGIN SELECT RAISE(ABORT, 'uses of tied rigs are never deleted'); END;
CREATE TRIGGER tieduse_is_never_replaced BEFORE INSERT ON tieduse WHEN EXISTS (SELECT 1 FROM tieduse WHERE id = NEW.id) BEGIN SELECT RAISE(ABORT, 'uses of tied rigs are never replaced'); END;
CREATE TRIGGER statechange_is_never_changed BEFORE UPDATE ON statechange BEGIN SELECT RAISE(ABORT, 'changes of state are never changed'); END;
CREATE TRIGGER statechange_is_never_deleted BEFORE DELETE ON statechange BEGIN SELECT RAISE(ABORT, 'changes of state are never deleted'); END;
CREATE TRIGGER statechange_is_never_replaced BEFORE INSERT ON statechange WHEN EXISTS (SELECT 1 FROM statechange WHERE id = NEW.id) BEGIN SELECT RAISE(ABORT, 'changes of state are never replaced'); END;
CREATE TRIGGER debrief_is_never_changed BEFORE UPDATE ON debrief BEGIN SELECT RAISE(ABORT, 'debriefs are never changed'); END;
CREATE TRIGGER debrief_is_never_deleted BEFORE DELETE ON debrief BEGIN SELECT RAISE(ABORT, 'debriefs are never deleted'); END;
CREATE TRIGGER debrief_is_never_replaced BEFORE INSERT ON debrief WHEN EXISTS (SELECT 1 FROM debrief WHERE id = NEW.id) BEGIN SELECT RAISE(ABORT, 'debriefs are never replaced'); END;
CREATE TRIGGER debriefrig_is_never_changed BEFORE UPDATE ON debriefrig BEGIN SELECT RAISE(ABORT, 'rigs of debriefs are never changed'); END;
CREATE TRIGGER debriefrig_is_never_deleted BEFORE DELETE ON debriefrig BEGIN SELECT RAISE(ABORT, 'rigs of debriefs are never deleted'); END;
CREATE TRIGGER debriefrig_is_never_replaced BEFORE INSERT ON debriefrig WHEN EXISTS (SELECT 1 FROM debriefrig WHERE id = NEW.id) BEGIN SELECT RAISE(ABORT, 'rigs of debriefs are never replaced'); END;
CREATE TRIGGER change_is_never_changed BEFORE UPDATE ON change BEGIN SELECT RAISE(ABORT, 'changes are never changed'); END;
CREATE TRIGGER change_is_never_deleted BEFORE DELETE ON change BEGIN SELECT RAISE(ABORT, 'changes are never deleted'); END;
CREATE TRIGGER change_is_never_replaced BEFORE INSERT ON change WHEN EXISTS (SELECT 1 FROM change WHERE id = NEW.id) BEGIN SELECT RAISE(ABORT, 'changes are never replaced'); END;
CREATE TRIGGER action_is_never_changed BEFORE UPDATE ON action WHEN OLD.id <> (SELECT max(id) FROM action) OR NEW.id <> OLD.id
           OR NEW."on" <> OLD."on" OR NEW.written_at <> OLD.written_at
           OR NEW.undoes IS NOT OLD.undoes OR NEW.redoes IS NOT OLD.redoes
           OR NEW.key IS NOT OLD.key BEGIN SELECT RAISE(ABORT, 'actions are never changed'); END;
CREATE TRIGGER action_is_never_deleted BEFORE DELETE ON action BEGIN SELECT RAISE(ABORT, 'actions are never deleted'); END;
CREATE TRIGGER action_is_never_replaced BEFORE INSERT ON action WHEN EXISTS (SELECT 1 FROM action WHERE id = NEW.id) BEGIN SELECT RAISE(ABORT, 'actions are never replaced'); END;
CREATE TRIGGER tied_stays_as_tied BEFORE UPDATE OF id, code, code_number, recipe, kind, tied_on, forced_because, snapshot, action_id
           ON tied
           WHEN NEW.id <> OLD.id OR NEW.code <> OLD.code OR NEW.code_number <> OLD.code_number
           OR NEW.recipe <> OLD.recipe OR NEW.kind <> OLD.kind OR NEW.tied_on <> OLD.tied_on
           OR NEW.forced_because <> OLD.forced_because
           OR NEW.snapshot <> OLD.snapshot OR NEW.action_id <> OLD.action_id BEGIN SELECT RAISE(ABORT, 'what was tied is never changed'); END;
CREATE TRIGGER tied_is_never_deleted BEFORE DELETE ON tied BEGIN SELECT RAISE(ABORT, 'tied rigs are never deleted'); END;
CREATE TRIGGER tied_is_never_replaced BEFORE INSERT ON tied WHEN EXISTS (SELECT 1 FROM tied WHERE id = NEW.id) BEGIN SELECT RAISE(ABORT, 'tied rigs are never replaced'); END;
CREATE TRIGGER state_is_remembered AFTER UPDATE OF state ON tied
         WHEN NEW.state <> OLD.state BEGIN
         INSERT INTO statechange (tied_id, action_id, was, became)
           VALUES (NEW.id, (SELECT max(id) FROM action), OLD.state, NEW.state);
       END;
CREATE TRIGGER sheetinuse_is_never_deleted BEFORE DELETE ON sheetinuse BEGIN SELECT RAISE(ABORT, 'sheets in use are never deleted'); END;
CREATE TRIGGER sheetinuse_is_never_replaced BEFORE INSERT ON sheetinuse WHEN EXISTS (SELECT 1 FROM sheetinuse WHERE paper = NEW.paper) BEGIN SELECT RAISE(ABORT, 'sheets in use are never replaced'); END;
CREATE TRIGGER sheetinuse_keeps_its_paper BEFORE UPDATE OF paper ON sheetinuse WHEN NEW.paper <> OLD.paper BEGIN SELECT RAISE(ABORT, 'a sheet in use keeps its paper'); END;
CREATE TRIGGER sheetinuse_first_use_is_remembered AFTER INSERT ON sheetinuse BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'sheetinuse', NEW.paper, 'next_free',
                   '1', json_quote(NEW.next_free));
       END;
CREATE TRIGGER item_name_is_remembered AFTER UPDATE OF name ON item
         WHEN NEW.name IS NOT OLD.name BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'item', NEW.id, 'name',
                   json_quote(OLD.name), json_quote(NEW.name));
       END;
CREATE TRIGGER item_place_is_remembered AFTER UPDATE OF place ON item
         WHEN NEW.place IS NOT OLD.place BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'item', NEW.id, 'place',
                   json_quote(OLD.place), json_quote(NEW.place));
       END;
CREATE TRIGGER item_pack_size_is_remembered AFTER UPDATE OF pack_size ON item
         WHEN NEW.pack_size IS NOT OLD.pack_size BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'item', NEW.id, 'pack_size',
                   json_quote(OLD.pack_size), json_quote(NEW.pack_size));
       END;
CREATE TRIGGER item_pack_price_cents_is_remembered AFTER UPDATE OF pack_price_cents ON item
         WHEN NEW.pack_price_cents IS NOT OLD.pack_price_cents BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'item', NEW.id, 'pack_price_cents',
                   json_quote(OLD.pack_price_cents), json_quote(NEW.pack_price_cents));
       END;
CREATE TRIGGER item_minimum_is_remembered AFTER UPDATE OF minimum ON item
         WHEN NEW.minimum IS NOT OLD.minimum BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'item', NEW.id, 'minimum',
                   json_quote(OLD.minimum), json_quote(NEW.minimum));
       END;
CREATE TRIGGER item_withdrawn_is_remembered AFTER UPDATE OF withdrawn ON item
         WHEN NEW.withdrawn IS NOT OLD.withdrawn BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'item', NEW.id, 'withdrawn',
                   json_quote(OLD.withdrawn), json_quote(NEW.withdrawn));
       END;
CREATE TRIGGER tied_labelled_on_is_remembered AFTER UPDATE OF labelled_on ON tied
         WHEN NEW.labelled_on IS NOT OLD.labelled_on BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'tied', NEW.id, 'labelled_on',
                   json_quote(OLD.labelled_on), json_quote(NEW.labelled_on));
       END;
CREATE TRIGGER sheetinuse_next_free_is_remembered AFTER UPDATE OF next_free ON sheetinuse
         WHEN NEW.next_free IS NOT OLD.next_free BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'sheetinuse', NEW.paper, 'next_free',
                   json_quote(OLD.next_free), json_quote(NEW.next_free));
       END;
CREATE TRIGGER identity_stays BEFORE UPDATE OF id, box, changes ON identity
           WHEN NEW.id <> OLD.id OR NEW.changes < OLD.changes
           OR (NEW.box <> OLD.box AND EXISTS (SELECT 1 FROM action)) BEGIN SELECT RAISE(ABORT, 'a box stays the same box'); END;
CREATE TRIGGER identity_is_never_deleted BEFORE DELETE ON identity BEGIN SELECT RAISE(ABORT, 'boxes are never deleted'); END;
CREATE TRIGGER identity_is_never_replaced BEFORE INSERT ON identity WHEN EXISTS (SELECT 1 FROM identity WHERE id = NEW.id) BEGIN SELECT RAISE(ABORT, 'boxes are never replaced'); END;
CREATE TRIGGER action_insert_is_counted AFTER INSERT ON action BEGIN
         UPDATE identity SET changes = changes + 1;
       END;
CREATE TRIGGER action_update_is_counted AFTER UPDATE ON action BEGIN
         UPDATE identity SET changes = changes + 1;
       END;
CREATE TRIGGER change_insert_is_counted AFTER INSERT ON change BEGIN
         UPDATE identity SET changes = changes + 1;
       END;
CREATE TRIGGER item_insert_is_counted AFTER INSERT ON item BEGIN
         UPDATE identity SET changes = changes + 1;
       END;
CREATE TRIGGER item_update_is_counted AFTER UPDATE ON item BEGIN
         UPDATE identity SET changes = changes + 1;
       END;
CREATE TRIGGER line_insert_is_counted AFTER INSERT ON line BEGIN
         UPDATE identity SET changes = changes + 1;
       END;
CREATE TRIGGER hook_insert_is_counted AFTER INSERT ON hook BEGIN
         UPDATE identity SET changes = changes + 1;
       END;
CREATE TRIGGER float_insert_is_counted AFTER INSERT ON float BEGIN
         UPDATE identity SET changes = changes + 1;
       END;
CREATE TRIGGER weight_insert_is_counted AFTER INSERT ON weight BEGIN
         UPDATE identity SET changes = changes + 1;
       END;
CREATE TRIGGER feeder_insert_is_counted AFTER INSERT ON feeder BEGIN
         UPDATE identity SET changes = changes + 1;
       END;
CREATE TRIGGER part_insert_is_counted AFTER INSERT ON part BEGIN
         UPDATE identity SET changes = changes + 1;
       END;
CREATE TRIGGER elastic_insert_is_counted AFTER INSERT ON elastic BEGIN
         UPDATE identity SET changes = changes + 1;
       END;
CREATE TRIGGER winder_insert_is_counted AFTER INSERT ON winder BEGIN
         UPDATE identity SET changes = changes + 1;
       END;
CREATE TRIGGER movement_insert_is_counted AFTER INSERT ON movement BEGIN
         UPDATE identity SET changes = changes + 1;
       END;
CREATE TRIGGER measurement_insert_is_counted AFTER INSERT ON measurement BEGIN
         UPDATE identity SET changes = changes + 1;
       END;
CREATE TRIGGER tied_insert_is_counted AFTER INSERT ON tied BEGIN
         UPDATE identity SET changes = changes + 1;
       END;
CREATE TRIGGER tied_update_is_counted AFTER UPDATE ON tied BEGIN
         UPDATE identity SET changes = changes + 1;
       END;
CREATE TRIGGER tieduse_insert_is_counted AFTER INSERT ON tieduse BEGIN
         UPDATE identity SET changes = changes + 1;
       END;
CREATE TRIGGER statechange_insert_is_counted AFTER INSERT ON statechange BEGIN
         UPDATE identity SET changes = changes + 1;
       END;
CREATE TRIGGER sheetinuse_insert_is_counted AFTER INSERT ON sheetinuse BEGIN
         UPDATE identity SET changes = changes + 1;
       END;
CREATE TRIGGER sheetinuse_update_is_counted AFTER UPDATE ON sheetinuse BEGIN
         UPDATE identity SET changes = changes + 1;
       END;
CREATE TRIGGER debrief_insert_is_counted AFTER INSERT ON debrief BEGIN
         UPDATE identity SET changes = changes + 1;
       END;
CREATE TRIGGER debriefrig_insert_is_counted AFTER INSERT ON debriefrig BEGIN
         UPDATE identity SET changes = changes + 1;
       END;
COMMIT;
