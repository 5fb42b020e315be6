PRAGMA application_id = 1413696322;
PRAGMA user_version = 2;
BEGIN TRANSACTION;
CREATE TABLE action (
	id INTEGER NOT NULL, 
	what VARCHAR NOT NULL, 
	"on" DATE NOT NULL, 
	written_at DATETIME NOT NULL, 
	undoes INTEGER, 
	PRIMARY KEY (id), 
	FOREIGN KEY(undoes) REFERENCES action (id)
);
INSERT INTO "action" VALUES(1,'add','2026-03-05','2026-11-25 20:34:28.765265',NULL);
INSERT INTO "action" VALUES(2,'add','2026-03-05','2026-11-25 20:34:28.784198',NULL);
INSERT INTO "action" VALUES(3,'add','2026-03-05','2026-11-25 20:34:28.792483',NULL);
INSERT INTO "action" VALUES(4,'add','2026-03-05','2026-11-25 20:34:28.803404',NULL);
INSERT INTO "action" VALUES(5,'add','2026-03-05','2026-11-25 20:34:28.812434',NULL);
INSERT INTO "action" VALUES(6,'add','2026-03-05','2026-11-25 20:34:28.820080',NULL);
INSERT INTO "action" VALUES(7,'add','2026-03-05','2026-11-25 20:34:28.828667',NULL);
INSERT INTO "action" VALUES(8,'add','2026-03-05','2026-11-25 20:34:28.836276',NULL);
INSERT INTO "action" VALUES(9,'add','2026-03-05','2026-11-25 20:34:28.844881',NULL);
INSERT INTO "action" VALUES(10,'add','2026-03-05','2026-11-25 20:34:28.854208',NULL);
INSERT INTO "action" VALUES(11,'tie 1 × pole-canal-shot','2026-03-05','2026-11-25 20:34:28.909173',NULL);
INSERT INTO "action" VALUES(12,'take apart A01T','2026-03-05','2026-11-25 20:34:28.931484',NULL);
INSERT INTO "action" VALUES(13,'tie 1 × pole-canal-shot','2026-03-05','2026-11-25 20:34:28.960852',NULL);
INSERT INTO "action" VALUES(14,'tie 1 × hooklength-fine','2026-03-05','2026-11-25 20:34:28.983104',NULL);
INSERT INTO "action" VALUES(15,'lost A03P','2026-03-05','2026-11-25 20:34:28.992876',NULL);
INSERT INTO "action" VALUES(16,'tie 2 × hooklength-fine','2026-03-05','2026-11-25 20:34:29.001731',NULL);
INSERT INTO "action" VALUES(17,'undo of tie 2 × hooklength-fine','2026-03-05','2026-11-25 20:34:29.017021',16);
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
CREATE TABLE item (
	id INTEGER NOT NULL, 
	kind VARCHAR NOT NULL, 
	words VARCHAR NOT NULL, 
	name VARCHAR NOT NULL, 
	place VARCHAR NOT NULL, 
	pack_size INTEGER NOT NULL, 
	pack_price_cents INTEGER, 
	keep_at_least INTEGER NOT NULL, 
	on_hand INTEGER NOT NULL, 
	last_movement INTEGER NOT NULL, 
	added_on DATE NOT NULL, 
	PRIMARY KEY (id), 
	CONSTRAINT never_below_zero CHECK (on_hand >= 0), 
	UNIQUE (name)
);
INSERT INTO "item" VALUES(1,'line','nylon 0.08 mm 0.7 kg','nylon 0.08 mm 0.7 kg','',50000,NULL,0,49650,27,'2026-03-05');
INSERT INTO "item" VALUES(2,'line','nylon 0.12 mm 1.6 kg','nylon 0.12 mm 1.6 kg','',50000,NULL,0,46420,18,'2026-03-05');
INSERT INTO "item" VALUES(3,'hook','hook 20 barbless spade','hook 20 barbless spade','',10,NULL,0,9,28,'2026-03-05');
INSERT INTO "item" VALUES(4,'float','pole 4×12','pole 4×12','',1,NULL,0,0,19,'2026-03-05');
INSERT INTO "item" VALUES(5,'float','pole 4×12 tip 1.2 mm','pole 4×12 tip 1.2 mm','',1,NULL,0,1,5,'2026-03-05');
INSERT INTO "item" VALUES(6,'weight','shot No 8 tin','shot No 8 tin','',20,NULL,0,16,20,'2026-03-05');
INSERT INTO "item" VALUES(7,'weight','shot No 10 tin','shot No 10 tin','',20,NULL,0,16,21,'2026-03-05');
INSERT INTO "item" VALUES(8,'winder','winder 13 cm 18 mm','winder 13 cm 18 mm','',1,NULL,0,0,22,'2026-03-05');
INSERT INTO "item" VALUES(9,'elastic','elastic 4','elastic 4','',6000,NULL,0,6000,9,'2026-03-05');
INSERT INTO "item" VALUES(10,'part','connector','connector','',4,NULL,0,4,10,'2026-03-05');
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
	PRIMARY KEY (id), 
	FOREIGN KEY(item_id) REFERENCES item (id), 
	FOREIGN KEY(takes_back) REFERENCES measurement (id)
);
INSERT INTO "measurement" VALUES(1,2,'pull',1.5,NULL,'',1,NULL,'2026-03-05');
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
INSERT INTO "statechange" VALUES(1,1,12,'ready','taken apart');
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
INSERT INTO "tied" VALUES(1,'A01T',1,'pole-canal-shot','rig','taken apart','2026-03-05',NULL,'','{"carries": "pole 4×12", "code": "A01T", "hook": "20 barbless spade", "hooklength": "15 cm nylon 0.08 mm 0.7 kg", "kind": "rig", "length_mm": 1550.0, "marks": [{"from_hook_mm": 1700.0, "held": "", "kind": "", "mass_g": 0.0, "side_mm": 0.0, "what": "elastic", "words": "elastic 4"}, {"from_hook_mm": 1700.0, "held": "", "kind": "connector", "mass_g": 0.0, "side_mm": 0.0, "what": "connector", "words": "connector"}, {"from_hook_mm": 1700.0, "held": "", "kind": "figure-of-eight loop", "mass_g": 0.0, "side_mm": 0.0, "what": "loop", "words": "rig line"}, {"from_hook_mm": 1200.0, "held": "two points", "kind": "pole", "mass_g": 0.0, "side_mm": 0.0, "what": "float", "words": "pole 4×12"}, {"from_hook_mm": 500.0, "held": "", "kind": "No 8", "mass_g": 0.06, "side_mm": 0.0, "what": "shot", "words": "bulk"}, {"from_hook_mm": 500.0, "held": "", "kind": "No 8", "mass_g": 0.06, "side_mm": 0.0, "what": "shot", "words": "bulk"}, {"from_hook_mm": 350.0, "held": "", "kind": "No 10", "mass_g": 0.04, "side_mm": 0.0, "what": "shot", "words": "droppers"}, {"from_hook_mm": 200.0, "held": "", "kind": "No 10", "mass_g": 0.04, "side_mm": 0.0, "what": "shot", "words": "droppers"}, {"from_hook_mm": 150.0, "held": "", "kind": "figure-of-eight loop", "mass_g": 0.0, "side_mm": 0.0, "what": "loop", "words": "rig line"}, {"from_hook_mm": 150.0, "held": "", "kind": "figure-of-eight loop", "mass_g": 0.0, "side_mm": 0.0, "what": "loop", "words": "hooklength line"}, {"from_hook_mm": 0.0, "held": "", "kind": "20", "mass_g": 0.0, "side_mm": 0.0, "what": "hook", "words": "hook 20 barbless spade"}], "method": "pole", "name": "Canal pole, shot", "outcome": "sound", "purpose": "small roach and gudgeon, canal, down the far shelf", "recipe": "pole-canal-shot", "rig_line": "nylon 0.12 mm 1.6 kg", "set_for": "depth 120 cm", "shot": "2 No 8 at 50 cm, 2 No 10 20–35 cm", "size": "4×12", "tied_on": "2026-03-05"}',11);
INSERT INTO "tied" VALUES(2,'A02R',2,'pole-canal-shot','rig','ready','2026-03-05',NULL,'','{"carries": "pole 4×12", "code": "A02R", "hook": "20 barbless spade", "hooklength": "15 cm nylon 0.08 mm 0.7 kg", "kind": "rig", "length_mm": 1550.0, "marks": [{"from_hook_mm": 1700.0, "held": "", "kind": "", "mass_g": 0.0, "side_mm": 0.0, "what": "elastic", "words": "elastic 4"}, {"from_hook_mm": 1700.0, "held": "", "kind": "connector", "mass_g": 0.0, "side_mm": 0.0, "what": "connector", "words": "connector"}, {"from_hook_mm": 1700.0, "held": "", "kind": "figure-of-eight loop", "mass_g": 0.0, "side_mm": 0.0, "what": "loop", "words": "rig line"}, {"from_hook_mm": 1200.0, "held": "two points", "kind": "pole", "mass_g": 0.0, "side_mm": 0.0, "what": "float", "words": "pole 4×12"}, {"from_hook_mm": 500.0, "held": "", "kind": "No 8", "mass_g": 0.06, "side_mm": 0.0, "what": "shot", "words": "bulk"}, {"from_hook_mm": 500.0, "held": "", "kind": "No 8", "mass_g": 0.06, "side_mm": 0.0, "what": "shot", "words": "bulk"}, {"from_hook_mm": 350.0, "held": "", "kind": "No 10", "mass_g": 0.04, "side_mm": 0.0, "what": "shot", "words": "droppers"}, {"from_hook_mm": 200.0, "held": "", "kind": "No 10", "mass_g": 0.04, "side_mm": 0.0, "what": "shot", "words": "droppers"}, {"from_hook_mm": 150.0, "held": "", "kind": "figure-of-eight loop", "mass_g": 0.0, "side_mm": 0.0, "what": "loop", "words": "rig line"}, {"from_hook_mm": 150.0, "held": "", "kind": "figure-of-eight loop", "mass_g": 0.0, "side_mm": 0.0, "what": "loop", "words": "hooklength line"}, {"from_hook_mm": 0.0, "held": "", "kind": "20", "mass_g": 0.0, "side_mm": 0.0, "what": "hook", "words": "hook 20 barbless spade"}], "method": "pole", "name": "Canal pole, shot", "outcome": "sound", "purpose": "small roach and gudgeon, canal, down the far shelf", "recipe": "pole-canal-shot", "rig_line": "nylon 0.12 mm 1.6 kg", "set_for": "depth 120 cm", "shot": "2 No 8 at 50 cm, 2 No 10 20–35 cm", "size": "4×12", "tied_on": "2026-03-05"}',13);
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
CREATE INDEX ix_item_words ON item (words);
CREATE INDEX ix_item_kind ON item (kind);
CREATE INDEX ix_movement_action_id ON movement (action_id);
CREATE INDEX ix_movement_item_id ON movement (item_id);
CREATE INDEX ix_measurement_item_id ON measurement (item_id);
CREATE INDEX ix_tied_recipe ON tied (recipe);
CREATE INDEX ix_tied_state ON tied (state);
CREATE INDEX ix_debrief_match ON debrief ("match");
CREATE INDEX ix_debrief_action_id ON debrief (action_id);
CREATE INDEX ix_tieduse_tied_id ON tieduse (tied_id);
CREATE INDEX ix_tieduse_item_id ON tieduse (item_id);
CREATE INDEX ix_statechange_action_id ON statechange (action_id);
CREATE INDEX ix_statechange_tied_id ON statechange (tied_id);
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
CREATE TRIGGER item_with_movements_stays BEFORE DELETE ON item WHEN EXISTS (SELECT 1 FROM movement WHERE item_id = OLD.id) BEGIN SELECT RAISE(ABORT, 'an item with movements is never deleted'); END;
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
CREATE TRIGGER action_is_never_changed BEFORE UPDATE ON action WHEN OLD.id <> (SELECT max(id) FROM action) OR NEW.id <> OLD.id
           OR NEW."on" <> OLD."on" OR NEW.written_at <> OLD.written_at
           OR NEW.undoes IS NOT OLD.undoes BEGIN SELECT RAISE(ABORT, 'actions are never changed'); END;
CREATE TRIGGER action_is_never_deleted BEFORE DELETE ON action BEGIN SELECT RAISE(ABORT, 'actions are never deleted'); END;
CREATE TRIGGER action_is_never_replaced BEFORE INSERT ON action WHEN EXISTS (SELECT 1 FROM action WHERE id = NEW.id) BEGIN SELECT RAISE(ABORT, 'actions are never replaced'); END;
CREATE TRIGGER tied_stays_as_tied BEFORE UPDATE OF id, code, code_number, recipe, kind, tied_on, snapshot, action_id ON tied
           WHEN NEW.id <> OLD.id OR NEW.code <> OLD.code OR NEW.code_number <> OLD.code_number
           OR NEW.recipe <> OLD.recipe OR NEW.kind <> OLD.kind OR NEW.tied_on <> OLD.tied_on
           OR NEW.snapshot <> OLD.snapshot OR NEW.action_id <> OLD.action_id BEGIN SELECT RAISE(ABORT, 'what was tied is never changed'); END;
CREATE TRIGGER tied_is_never_deleted BEFORE DELETE ON tied BEGIN SELECT RAISE(ABORT, 'tied rigs are never deleted'); END;
CREATE TRIGGER tied_is_never_replaced BEFORE INSERT ON tied WHEN EXISTS (SELECT 1 FROM tied WHERE id = NEW.id) BEGIN SELECT RAISE(ABORT, 'tied rigs are never replaced'); END;
CREATE TRIGGER state_is_remembered AFTER UPDATE OF state ON tied
         WHEN NEW.state <> OLD.state BEGIN
         INSERT INTO statechange (tied_id, action_id, was, became)
           VALUES (NEW.id, (SELECT max(id) FROM action), OLD.state, NEW.state);
       END;
COMMIT;
