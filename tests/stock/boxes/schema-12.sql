PRAGMA application_id = 1413696322;
PRAGMA user_version = 12;
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
INSERT INTO "action" VALUES(1,'add','2026-03-05','2026-11-28 10:16:55.669661',NULL,NULL,NULL);
INSERT INTO "action" VALUES(2,'add','2026-03-05','2026-11-28 10:16:55.696069',NULL,NULL,NULL);
INSERT INTO "action" VALUES(3,'add','2026-03-05','2026-11-28 10:16:55.703286',NULL,NULL,NULL);
INSERT INTO "action" VALUES(4,'add','2026-03-05','2026-11-28 10:16:55.709022',NULL,NULL,NULL);
INSERT INTO "action" VALUES(5,'add','2026-03-05','2026-11-28 10:16:55.715564',NULL,NULL,NULL);
INSERT INTO "action" VALUES(6,'add','2026-03-05','2026-11-28 10:16:55.721671',NULL,NULL,NULL);
INSERT INTO "action" VALUES(7,'add','2026-03-05','2026-11-28 10:16:55.728072',NULL,NULL,NULL);
INSERT INTO "action" VALUES(8,'add','2026-03-05','2026-11-28 10:16:55.733926',NULL,NULL,NULL);
INSERT INTO "action" VALUES(9,'add','2026-03-05','2026-11-28 10:16:55.740113',NULL,NULL,NULL);
INSERT INTO "action" VALUES(10,'add','2026-03-05','2026-11-28 10:16:55.746418',NULL,NULL,NULL);
INSERT INTO "action" VALUES(11,'tie 1 × Canal pole, shot','2026-03-05','2026-11-28 10:16:55.881827',NULL,NULL,NULL);
INSERT INTO "action" VALUES(12,'strip A01T','2026-03-05','2026-11-28 10:16:55.895697',NULL,NULL,NULL);
INSERT INTO "action" VALUES(13,'tie 1 × Canal pole, shot','2026-03-05','2026-11-28 10:16:55.908471',NULL,NULL,NULL);
INSERT INTO "action" VALUES(14,'tie 1 × Fine hooklength','2026-03-05','2026-11-28 10:16:55.918184',NULL,NULL,NULL);
INSERT INTO "action" VALUES(15,'lost 1 of A03P','2026-03-05','2026-11-28 10:16:55.928682',NULL,NULL,NULL);
INSERT INTO "action" VALUES(16,'tie 2 × Fine hooklength','2026-03-05','2026-11-28 10:16:55.935488',NULL,NULL,NULL);
INSERT INTO "action" VALUES(17,'undo of tie 2 × Fine hooklength','2026-03-05','2026-11-28 10:16:55.941460',16,NULL,NULL);
INSERT INTO "action" VALUES(18,'add','2026-03-05','2026-11-28 10:16:55.954378',NULL,NULL,NULL);
INSERT INTO "action" VALUES(19,'undo of add','2026-03-05','2026-11-28 10:16:55.958501',18,NULL,NULL);
INSERT INTO "action" VALUES(20,'pull test of nylon 0.12 mm 1.6 kg','2026-03-05','2026-11-28 10:16:55.963723',NULL,NULL,NULL);
INSERT INTO "action" VALUES(21,'edit','2026-03-05','2026-11-28 10:16:55.966434',NULL,NULL,NULL);
INSERT INTO "action" VALUES(22,'label A02R','2026-03-05','2026-11-28 10:16:55.969059',NULL,NULL,NULL);
CREATE TABLE aswritten (
	table_name VARCHAR NOT NULL, 
	row_key VARCHAR NOT NULL, 
	checks BLOB NOT NULL, 
	PRIMARY KEY (table_name, row_key)
)
 WITHOUT ROWID

;
INSERT INTO "aswritten" VALUES('action','1',X'F4DBDF21FD1A73E7EC0BE08BA41CD331000000030000000300000003');
INSERT INTO "aswritten" VALUES('action','10',X'B84614A0FD1A73E7EC0BE08B78FAB9AF000000030000000300000003');
INSERT INTO "aswritten" VALUES('action','11',X'CF4124366FFAF8A8EC0BE08B630369F4000000030000000300000003');
INSERT INTO "aswritten" VALUES('action','12',X'5648758CC49B31BDEC0BE08B386B23D2000000030000000300000003');
INSERT INTO "aswritten" VALUES('action','13',X'214F451A6FFAF8A8EC0BE08B7829160E000000030000000300000003');
INSERT INTO "aswritten" VALUES('action','14',X'BF2BD0B9CBC75AB8EC0BE08BB4701515000000030000000300000003');
INSERT INTO "aswritten" VALUES('action','15',X'C82CE02F360FBE89EC0BE08B1FFCDC75000000030000000300000003');
INSERT INTO "aswritten" VALUES('action','16',X'5125B195646E1772EC0BE08B33A71068000000030000000300000003');
INSERT INTO "aswritten" VALUES('action','17',X'262281035DACE92FEC0BE08B9EBDFE935125B1950000000300000003');
INSERT INTO "aswritten" VALUES('action','18',X'B69D9C92FD1A73E7EC0BE08B868C88E7000000030000000300000003');
INSERT INTO "aswritten" VALUES('action','19',X'C19AAC04A19C1A14EC0BE08BFE4A658EB69D9C920000000300000003');
INSERT INTO "aswritten" VALUES('action','2',X'6DD28E9BFD1A73E7EC0BE08B7479A036000000030000000300000003');
INSERT INTO "aswritten" VALUES('action','20',X'936B476393C4100BEC0BE08BB1574F9F000000030000000300000003');
INSERT INTO "aswritten" VALUES('action','21',X'E46C77F58135DE1AEC0BE08B03B0A516000000030000000300000003');
INSERT INTO "aswritten" VALUES('action','22',X'7D65264FF92883AFEC0BE08B7431C6A7000000030000000300000003');
INSERT INTO "aswritten" VALUES('action','3',X'1AD5BE0DFD1A73E7EC0BE08B885305A1000000030000000300000003');
INSERT INTO "aswritten" VALUES('action','4',X'84B12BAEFD1A73E7EC0BE08B19E81D38000000030000000300000003');
INSERT INTO "aswritten" VALUES('action','5',X'F3B61B38FD1A73E7EC0BE08BE59A29EA000000030000000300000003');
INSERT INTO "aswritten" VALUES('action','6',X'6ABF4A82FD1A73E7EC0BE08B466FBFFA000000030000000300000003');
INSERT INTO "aswritten" VALUES('action','7',X'1DB87A14FD1A73E7EC0BE08BA6E3DD78000000030000000300000003');
INSERT INTO "aswritten" VALUES('action','8',X'8D076785FD1A73E7EC0BE08B3949781A000000030000000300000003');
INSERT INTO "aswritten" VALUES('action','9',X'FA005713FD1A73E7EC0BE08BCC88FD10000000030000000300000003');
INSERT INTO "aswritten" VALUES('batch','1',X'F4DBDF21B98731101AD5BE0DCF412436BF2BD0B989DD575AEC0BE08BF4DBDF2183DCEFB7000000030000000070F1E007');
INSERT INTO "aswritten" VALUES('batch','2',X'6DD28E9B0CC99AB484B12BAECF4124365125B19589DD575AEC0BE08B6DD28E9B83DCEFB7000000030000000040F864C7');
INSERT INTO "aswritten" VALUES('batchuse','1',X'F4DBDF21F4DBDF21F4DBDF211EF0738F5C461AF6');
INSERT INTO "aswritten" VALUES('batchuse','2',X'6DD28E9BF4DBDF211AD5BE0DA4584355F4DBDF21');
INSERT INTO "aswritten" VALUES('batchuse','3',X'1AD5BE0D6DD28E9BF4DBDF211EF0738F2638466F');
INSERT INTO "aswritten" VALUES('batchuse','4',X'84B12BAE6DD28E9B1AD5BE0DA45843556DD28E9B');
INSERT INTO "aswritten" VALUES('change','1',X'F4DBDF21BF2BD0B9F80B52D483DCEFB77A67E768F4DBDF2183DCEFB7');
INSERT INTO "aswritten" VALUES('change','2',X'6DD28E9BC82CE02FF80B52D483DCEFB77A67E76883DCEFB7F4DBDF21');
INSERT INTO "aswritten" VALUES('change','3',X'1AD5BE0D5125B195F80B52D41AD5BE0D7A67E768F4DBDF211AD5BE0D');
INSERT INTO "aswritten" VALUES('change','4',X'84B12BAE26228103F80B52D41AD5BE0D7A67E7681AD5BE0DF4DBDF21');
INSERT INTO "aswritten" VALUES('change','5',X'F3B61B38C19AAC041F1B251E4F5344CD6F0AC3CEF4DBDF2183DCEFB7');
INSERT INTO "aswritten" VALUES('change','6',X'6ABF4A82E46C77F51F1B251E1AD5BE0D199E1549F4DBDF21301C0795');
INSERT INTO "aswritten" VALUES('change','7',X'1DB87A14E46C77F51F1B251E1AD5BE0D741D53CD330B153BEC8744A9');
INSERT INTO "aswritten" VALUES('change','8',X'8D0767857D65264FD04A22DB1AD5BE0D1CCBFEC325CBFC4F99BCCDC5');
INSERT INTO "aswritten" VALUES('change','9',X'FA0057137D65264FEC52774EF20346F373BE771283DCEFB71AD5BE0D');
INSERT INTO "aswritten" VALUES('elastic','9',X'FA005713F27979B0000000030000000000000000');
INSERT INTO "aswritten" VALUES('float','4',X'84B12BAEFD6042E100AD50F41B7EB04000000000000000000000000000000000000000000000000300000000000000030000000000000000');
INSERT INTO "aswritten" VALUES('float','5',X'F3B61B38FD6042E100AD50F41B7EB04000000000000000000000000000000000000000001ABCDA77812A9A0B000000030000000000000000');
INSERT INTO "aswritten" VALUES('hook','12',X'5648758C647E170ED5A0779C663357FD000000008DC7FCDA000000000000000000000000');
INSERT INTO "aswritten" VALUES('hook','3',X'1AD5BE0D8A707622D624A3F2663357FD000000008DC7FCDA000000000000000000000000');
INSERT INTO "aswritten" VALUES('hooklength','11',X'CF4124368A707622D624A3F2663357FD000000008DC7FCDA000000000000000000000000FFB5D854BEF10AB1470A384D6B1444CFCB27F704EEE3E1C8D8080DD900000000');
INSERT INTO "aswritten" VALUES('identity','1',X'F4DBDF21E0EBCE2020ADEEA4');
INSERT INTO "aswritten" VALUES('item','1',X'F4DBDF21D114B4F638FEACF138FEACF100000000BF5CF2350000000383DCEFB786CE1CF88A707622EC0BE08B83DCEFB783DCEFB70000000000000000645D0B58');
INSERT INTO "aswritten" VALUES('item','10',X'B84614A0490F70C6148C456E148C456E0000000084B12BAE0000000383DCEFB784B12BAEB84614A0EC0BE08B83DCEFB783DCEFB7000000000000000000000000');
INSERT INTO "aswritten" VALUES('item','11',X'CF41243692A5F79E18921CE318921CE300000000B84614A00000000383DCEFB783DCEFB7647E170EEC0BE08B83DCEFB783DCEFB7000000000000000000000000');
INSERT INTO "aswritten" VALUES('item','12',X'5648758CA45843555B403C6AFD46CB4A00000000B84614A00000000383DCEFB783DCEFB78D1DB23BEC0BE08BF4DBDF2183DCEFB7000000000000000000000000');
INSERT INTO "aswritten" VALUES('item','2',X'6DD28E9BD114B4F632140CDA32140CDAC4F09E27BF5CF235000000030D7C2E2592684E07B69D9C92EC0BE08B83DCEFB783DCEFB70000000000000000645D0B58');
INSERT INTO "aswritten" VALUES('item','3',X'1AD5BE0DA4584355DCE01909DCE0190900000000B84614A00000000383DCEFB7FA005713FD7746B4EC0BE08B83DCEFB783DCEFB7000000000000000000000000');
INSERT INTO "aswritten" VALUES('item','4',X'84B12BAEC9A55E9509F0D7F209F0D7F200000000F4DBDF210000000383DCEFB783DCEFB7C19AAC04EC0BE08B83DCEFB783DCEFB7000000000000000000000000');
INSERT INTO "aswritten" VALUES('item','5',X'F3B61B38C9A55E9554A72DAE54A72DAE00000000F4DBDF210000000383DCEFB7F4DBDF21F3B61B38EC0BE08B83DCEFB783DCEFB7000000000000000000000000');
INSERT INTO "aswritten" VALUES('item','6',X'6ABF4A8207CD5541A2806020A280602000000000936B47630000000383DCEFB75125B195936B4763EC0BE08B83DCEFB783DCEFB7000000000000000000000000');
INSERT INTO "aswritten" VALUES('item','7',X'1DB87A1407CD55411BFBFB211BFBFB2100000000936B47630000000383DCEFB75125B195E46C77F5EC0BE08B83DCEFB783DCEFB7000000000000000000000000');
INSERT INTO "aswritten" VALUES('item','8',X'8D0767850161E5D86FD385F56FD385F500000000F4DBDF210000000383DCEFB783DCEFB77D65264FEC0BE08B83DCEFB783DCEFB7000000000000000000000000');
INSERT INTO "aswritten" VALUES('item','9',X'FA005713D5700212631306676313066700000000914CFCCB0000000383DCEFB7914CFCCBFA005713EC0BE08B83DCEFB783DCEFB7000000000000000079207977');
INSERT INTO "aswritten" VALUES('line','1',X'F4DBDF21FFB5D85400000000BEF10AB1470A384D6B1444CFCB27F7040000000000000000');
INSERT INTO "aswritten" VALUES('line','2',X'6DD28E9BFFB5D85400000000473FD2EE15D7F1991DD11E6EB8C743C40000000000000000');
INSERT INTO "aswritten" VALUES('measurement','1',X'F4DBDF216DD28E9B950DDCE384D84FD40000000300000000F4DBDF2100000003EC0BE08B936B476300000000000000030000000300000003');
INSERT INTO "aswritten" VALUES('movement','1',X'F4DBDF21F4DBDF21F4DBDF21BF5CF23504A936EFEC0BE08B00000000');
INSERT INTO "aswritten" VALUES('movement','10',X'B84614A0B84614A0B84614A084B12BAE04A936EFEC0BE08B00000000');
INSERT INTO "aswritten" VALUES('movement','11',X'CF4124366DD28E9BCF41243683FDE4DFD04A22DBEC0BE08B373AF486');
INSERT INTO "aswritten" VALUES('movement','12',X'5648758C84B12BAECF4124362936796BD04A22DBEC0BE08B373AF486');
INSERT INTO "aswritten" VALUES('movement','13',X'214F451A6ABF4A82CF412436B03F28D1D04A22DBEC0BE08B373AF486');
INSERT INTO "aswritten" VALUES('movement','14',X'BF2BD0B91DB87A14CF412436B03F28D1D04A22DBEC0BE08B373AF486');
INSERT INTO "aswritten" VALUES('movement','15',X'C82CE02F8D076785CF4124362936796BD04A22DBEC0BE08B373AF486');
INSERT INTO "aswritten" VALUES('movement','16',X'5125B19584B12BAE5648758CF4DBDF212C75E4D0EC0BE08BEA00286F');
INSERT INTO "aswritten" VALUES('movement','17',X'262281038D0767855648758CF4DBDF212C75E4D0EC0BE08B29F61BB1');
INSERT INTO "aswritten" VALUES('movement','18',X'B69D9C926DD28E9B214F451A83FDE4DFD04A22DBEC0BE08B373AF486');
INSERT INTO "aswritten" VALUES('movement','19',X'C19AAC0484B12BAE214F451A2936796BD04A22DBEC0BE08B373AF486');
INSERT INTO "aswritten" VALUES('movement','2',X'6DD28E9B6DD28E9B6DD28E9BBF5CF23504A936EFEC0BE08B00000000');
INSERT INTO "aswritten" VALUES('movement','20',X'936B47636ABF4A82214F451AB03F28D1D04A22DBEC0BE08B373AF486');
INSERT INTO "aswritten" VALUES('movement','21',X'E46C77F51DB87A14214F451AB03F28D1D04A22DBEC0BE08B373AF486');
INSERT INTO "aswritten" VALUES('movement','22',X'7D65264F8D076785214F451A2936796BD04A22DBEC0BE08B373AF486');
INSERT INTO "aswritten" VALUES('movement','23',X'0A6216D9CF412436BF2BD0B9F4DBDF21D04A22DBEC0BE08BB9873110');
INSERT INTO "aswritten" VALUES('movement','24',X'9406837AF4DBDF21BF2BD0B969656649D04A22DBEC0BE08B89DD575A');
INSERT INTO "aswritten" VALUES('movement','25',X'E301B3EC1AD5BE0DBF2BD0B92936796BD04A22DBEC0BE08B89DD575A');
INSERT INTO "aswritten" VALUES('movement','26',X'7A08E256CF412436C82CE02F2936796B404584AAEC0BE08B41A49060');
INSERT INTO "aswritten" VALUES('movement','27',X'0D0FD2C0CF4124365125B1956DD28E9BD04A22DBEC0BE08B0CC99AB4');
INSERT INTO "aswritten" VALUES('movement','28',X'9DB0CF51F4DBDF215125B195131B3AD0D04A22DBEC0BE08B89DD575A');
INSERT INTO "aswritten" VALUES('movement','29',X'EAB7FFC71AD5BE0D5125B195B03F28D1D04A22DBEC0BE08B89DD575A');
INSERT INTO "aswritten" VALUES('movement','3',X'1AD5BE0D1AD5BE0D1AD5BE0DB84614A004A936EFEC0BE08B00000000');
INSERT INTO "aswritten" VALUES('movement','30',X'8A707622F4DBDF21262281032638466FCEDD2CEFEC0BE08B06E37FAF');
INSERT INTO "aswritten" VALUES('movement','31',X'FD7746B41AD5BE0D262281036DD28E9BCEDD2CEFEC0BE08B71E44F39');
INSERT INTO "aswritten" VALUES('movement','32',X'647E170ECF41243626228103B03F28D1CEDD2CEFEC0BE08B965C623E');
INSERT INTO "aswritten" VALUES('movement','33',X'137927985648758CB69D9C92B84614A004A936EFEC0BE08B00000000');
INSERT INTO "aswritten" VALUES('movement','34',X'8D1DB23B5648758CC19AAC042E925188CEDD2CEFEC0BE08B882A9766');
INSERT INTO "aswritten" VALUES('movement','4',X'84B12BAE84B12BAE84B12BAEF4DBDF2104A936EFEC0BE08B00000000');
INSERT INTO "aswritten" VALUES('movement','5',X'F3B61B38F3B61B38F3B61B38F4DBDF2104A936EFEC0BE08B00000000');
INSERT INTO "aswritten" VALUES('movement','6',X'6ABF4A826ABF4A826ABF4A82936B476304A936EFEC0BE08B00000000');
INSERT INTO "aswritten" VALUES('movement','7',X'1DB87A141DB87A141DB87A14936B476304A936EFEC0BE08B00000000');
INSERT INTO "aswritten" VALUES('movement','8',X'8D0767858D0767858D076785F4DBDF2104A936EFEC0BE08B00000000');
INSERT INTO "aswritten" VALUES('movement','9',X'FA005713FA005713FA005713914CFCCB04A936EFEC0BE08B00000000');
INSERT INTO "aswritten" VALUES('part','10',X'B84614A0148C456E000000000000000300000000');
INSERT INTO "aswritten" VALUES('sheetinuse','a4-65',X'F20346F36DD28E9B');
INSERT INTO "aswritten" VALUES('statechange','1',X'F4DBDF21F4DBDF215648758C289585AFE089F6BB');
INSERT INTO "aswritten" VALUES('tied','1',X'F4DBDF218CDC978BF4DBDF21373AF486CFDD4139E089F6BBEC0BE08B0000000300000000E2608E7ECF412436');
INSERT INTO "aswritten" VALUES('tied','2',X'6DD28E9B4E92617D6DD28E9B373AF486CFDD4139289585AFEC0BE08BEC0BE08B00000000E330EF02214F451A');
INSERT INTO "aswritten" VALUES('tieduse','1',X'F4DBDF21F4DBDF216DD28E9BB1193BBED81669BE83DCEFB7');
INSERT INTO "aswritten" VALUES('tieduse','10',X'B84614A06DD28E9B8D0767850161E5D8F4DBDF21F4DBDF21');
INSERT INTO "aswritten" VALUES('tieduse','2',X'6DD28E9BF4DBDF2184B12BAEC9A55E95F4DBDF21F4DBDF21');
INSERT INTO "aswritten" VALUES('tieduse','3',X'1AD5BE0DF4DBDF216ABF4A82856333406DD28E9B83DCEFB7');
INSERT INTO "aswritten" VALUES('tieduse','4',X'84B12BAEF4DBDF211DB87A14534046CB6DD28E9B83DCEFB7');
INSERT INTO "aswritten" VALUES('tieduse','5',X'F3B61B38F4DBDF218D0767850161E5D8F4DBDF21F4DBDF21');
INSERT INTO "aswritten" VALUES('tieduse','6',X'6ABF4A826DD28E9B6DD28E9BB1193BBED81669BE83DCEFB7');
INSERT INTO "aswritten" VALUES('tieduse','7',X'1DB87A146DD28E9B84B12BAEC9A55E95F4DBDF21F4DBDF21');
INSERT INTO "aswritten" VALUES('tieduse','8',X'8D0767856DD28E9B6ABF4A82856333406DD28E9B83DCEFB7');
INSERT INTO "aswritten" VALUES('tieduse','9',X'FA0057136DD28E9B1DB87A14534046CB6DD28E9B83DCEFB7');
INSERT INTO "aswritten" VALUES('weight','6',X'6ABF4A82AB0788BBA482E033594927B6B28C852F');
INSERT INTO "aswritten" VALUES('weight','7',X'1DB87A14AB0788BB9A6D879EB747469AB28C852F');
INSERT INTO "aswritten" VALUES('winder','8',X'8D076785CB88BE14FD635205C47C05FBB4E1F88A00000000');
CREATE TABLE batch (
	id INTEGER NOT NULL, 
	code VARCHAR NOT NULL, 
	code_number INTEGER NOT NULL, 
	item_id INTEGER NOT NULL, 
	action_id INTEGER NOT NULL, 
	recipe VARCHAR NOT NULL, 
	tied_on DATE NOT NULL, 
	tied INTEGER NOT NULL, 
	"left" INTEGER NOT NULL, 
	labelled_on DATE, 
	forced_because VARCHAR NOT NULL, 
	snapshot VARCHAR NOT NULL, 
	PRIMARY KEY (id), 
	UNIQUE (code), 
	UNIQUE (code_number), 
	FOREIGN KEY(item_id) REFERENCES item (id), 
	FOREIGN KEY(action_id) REFERENCES action (id)
);
INSERT INTO "batch" VALUES(1,'A03P',3,11,14,'hooklength-fine','2026-03-05',1,0,NULL,'','{"carries": "", "changed": "", "changed_otherwise": false, "check": "CBMKXL", "code": "A03P", "count": 1, "elastic": "", "fall": null, "hook": "20 barbless spade", "hooklength": "15 cm nylon 0.08 mm 0.7 kg", "hooklength_mm": 0.0, "in_tray_before": false, "kind": "hooklength", "length_mm": 150.0, "lengths": {}, "looked_for": "20 · 0.08", "made_from": "", "marks": [{"from_hook_mm": 150.0, "held": "", "kind": "figure-of-eight loop", "mass_g": 0.0, "side_mm": 0.0, "what": "loop", "words": "hooklength line"}, {"from_hook_mm": 0.0, "held": "", "kind": "20", "mass_g": 0.0, "side_mm": 0.0, "what": "hook", "words": "hook 20 barbless spade"}], "method": "float", "name": "Fine hooklength", "outcome": "sound", "over": "", "plumbed": "", "purpose": "small roach and gudgeon on fine line", "recipe": "hooklength-fine", "rig_line": "", "set_for": "", "shot": "", "size": "15 cm", "sizes": {"hook": "20"}, "tied_on": "2026-03-05", "winder_length_mm": 0.0, "winder_width_mm": 0.0}');
INSERT INTO "batch" VALUES(2,'A04N',4,11,16,'hooklength-fine','2026-03-05',2,0,NULL,'','{"carries": "", "changed": "", "changed_otherwise": false, "check": "RVQTSV", "code": "A04N", "count": 2, "elastic": "", "fall": null, "hook": "20 barbless spade", "hooklength": "15 cm nylon 0.08 mm 0.7 kg", "hooklength_mm": 0.0, "in_tray_before": false, "kind": "hooklength", "length_mm": 150.0, "lengths": {}, "looked_for": "20 · 0.08", "made_from": "", "marks": [{"from_hook_mm": 150.0, "held": "", "kind": "figure-of-eight loop", "mass_g": 0.0, "side_mm": 0.0, "what": "loop", "words": "hooklength line"}, {"from_hook_mm": 0.0, "held": "", "kind": "20", "mass_g": 0.0, "side_mm": 0.0, "what": "hook", "words": "hook 20 barbless spade"}], "method": "float", "name": "Fine hooklength", "outcome": "sound", "over": "", "plumbed": "", "purpose": "small roach and gudgeon on fine line", "recipe": "hooklength-fine", "rig_line": "", "set_for": "", "shot": "", "size": "15 cm", "sizes": {"hook": "20"}, "tied_on": "2026-03-05", "winder_length_mm": 0.0, "winder_width_mm": 0.0}');
CREATE TABLE batchuse (
	id INTEGER NOT NULL, 
	batch_id INTEGER NOT NULL, 
	item_id INTEGER NOT NULL, 
	part VARCHAR NOT NULL, 
	amount INTEGER NOT NULL, 
	PRIMARY KEY (id), 
	FOREIGN KEY(batch_id) REFERENCES batch (id), 
	FOREIGN KEY(item_id) REFERENCES item (id)
);
INSERT INTO "batchuse" VALUES(1,1,1,'hooklength line',350);
INSERT INTO "batchuse" VALUES(2,1,3,'hook',1);
INSERT INTO "batchuse" VALUES(3,2,1,'hooklength line',700);
INSERT INTO "batchuse" VALUES(4,2,3,'hook',2);
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
INSERT INTO "change" VALUES(1,14,'batch','1','left','0','1');
INSERT INTO "change" VALUES(2,15,'batch','1','left','1','0');
INSERT INTO "change" VALUES(3,16,'batch','2','left','0','2');
INSERT INTO "change" VALUES(4,17,'batch','2','left','2','0');
INSERT INTO "change" VALUES(5,19,'item','12','withdrawn','0','1');
INSERT INTO "change" VALUES(6,21,'item','2','minimum','0','20000');
INSERT INTO "change" VALUES(7,21,'item','2','place','""','"drawer 2"');
INSERT INTO "change" VALUES(8,22,'tied','2','labelled_on','null','"2026-03-05"');
INSERT INTO "change" VALUES(9,22,'sheetinuse','a4-65','next_free','1','2');
CREATE TABLE debrief (
	id INTEGER NOT NULL, 
	action_id INTEGER NOT NULL, 
	"match" VARCHAR NOT NULL, 
	venue VARCHAR NOT NULL, 
	"on" DATE NOT NULL, 
	peg VARCHAR NOT NULL, 
	section VARCHAR NOT NULL, 
	place INTEGER, 
	points FLOAT, 
	water_c FLOAT, 
	weight_g FLOAT, 
	notes VARCHAR NOT NULL, 
	record VARCHAR NOT NULL, 
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
	grade_to FLOAT, 
	core VARCHAR NOT NULL, 
	colour VARCHAR NOT NULL, 
	PRIMARY KEY (item_id), 
	FOREIGN KEY(item_id) REFERENCES item (id)
);
INSERT INTO "elastic" VALUES(9,4.0,NULL,'','');
CREATE TABLE feeder (
	item_id INTEGER NOT NULL, 
	shape VARCHAR NOT NULL, 
	fitting VARCHAR NOT NULL, 
	mass_g FLOAT, 
	mass_said VARCHAR NOT NULL, 
	size VARCHAR NOT NULL, 
	volume_ml FLOAT, 
	volume_said VARCHAR NOT NULL, 
	PRIMARY KEY (item_id), 
	FOREIGN KEY(item_id) REFERENCES item (id)
);
CREATE TABLE float (
	item_id INTEGER NOT NULL, 
	shape VARCHAR NOT NULL, 
	mark VARCHAR NOT NULL, 
	capacity_g FLOAT, 
	carries_said VARCHAR NOT NULL, 
	body VARCHAR NOT NULL, 
	material VARCHAR NOT NULL, 
	stem VARCHAR NOT NULL, 
	tip VARCHAR NOT NULL, 
	tip_diameter_mm FLOAT, 
	tip_diameter_said VARCHAR NOT NULL, 
	tip_length_mm FLOAT, 
	tip_length_said VARCHAR NOT NULL, 
	colour VARCHAR NOT NULL, 
	PRIMARY KEY (item_id), 
	FOREIGN KEY(item_id) REFERENCES item (id)
);
INSERT INTO "float" VALUES(4,'pole','4×12',0.2,'','','','','',NULL,'',NULL,'','');
INSERT INTO "float" VALUES(5,'pole','4×12',0.2,'','','','','',1.2,'1.2 mm',NULL,'','');
CREATE TABLE hook (
	item_id INTEGER NOT NULL, 
	size VARCHAR NOT NULL, 
	size_order FLOAT, 
	"end" VARCHAR NOT NULL, 
	eye VARCHAR NOT NULL, 
	barb VARCHAR NOT NULL, 
	wire VARCHAR NOT NULL, 
	bend VARCHAR NOT NULL, 
	colour VARCHAR NOT NULL, 
	PRIMARY KEY (item_id), 
	FOREIGN KEY(item_id) REFERENCES item (id)
);
INSERT INTO "hook" VALUES(3,'20',-20.0,'spade','','barbless','','','');
INSERT INTO "hook" VALUES(12,'22',-22.0,'spade','','barbless','','','');
CREATE TABLE hooklength (
	item_id INTEGER NOT NULL, 
	size VARCHAR NOT NULL, 
	size_order FLOAT NOT NULL, 
	"end" VARCHAR NOT NULL, 
	eye VARCHAR NOT NULL, 
	barb VARCHAR NOT NULL, 
	wire VARCHAR NOT NULL, 
	bend VARCHAR NOT NULL, 
	colour VARCHAR NOT NULL, 
	material VARCHAR NOT NULL, 
	diameter_mm FLOAT, 
	diameter_said VARCHAR NOT NULL, 
	breaks_at_kg FLOAT, 
	strain_said VARCHAR NOT NULL, 
	length_mm FLOAT, 
	length_said VARCHAR NOT NULL, 
	bait VARCHAR NOT NULL, 
	PRIMARY KEY (item_id), 
	FOREIGN KEY(item_id) REFERENCES item (id)
);
INSERT INTO "hooklength" VALUES(11,'20',-20.0,'spade','','barbless','','','','nylon',0.08,'0.08 mm',0.7,'0.7 kg',150.0,'15 cm','');
CREATE TABLE identity (
	id INTEGER NOT NULL, 
	box VARCHAR NOT NULL, 
	stamp VARCHAR NOT NULL, 
	changes INTEGER NOT NULL, 
	PRIMARY KEY (id), 
	CONSTRAINT one_row CHECK (id = 1)
);
INSERT INTO "identity" VALUES(1,'ed2d6c41a3ef702092af81bad8c71bd6','273777cc30c0ea854562e1ef1c97ef2b',150);
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
	retired BOOLEAN NOT NULL, 
	level VARCHAR NOT NULL, 
	note VARCHAR NOT NULL, 
	pack_said VARCHAR NOT NULL, 
	PRIMARY KEY (id), 
	CONSTRAINT never_below_zero CHECK (on_hand >= 0)
);
INSERT INTO "item" VALUES(1,'line','nylon 0.08 mm 0.7 kg','nylon 0.08 mm 0.7 kg','',50000,NULL,0,49650,30,'2026-03-05',0,0,'','','50 m');
INSERT INTO "item" VALUES(2,'line','nylon 0.12 mm 1.6 kg','nylon 0.12 mm 1.6 kg','drawer 2',50000,NULL,20000,46420,18,'2026-03-05',0,0,'','','50 m');
INSERT INTO "item" VALUES(3,'hook','hook 20 barbless spade','hook 20 barbless spade','',10,NULL,0,9,31,'2026-03-05',0,0,'','','');
INSERT INTO "item" VALUES(4,'float','pole 4×12','pole 4×12','',1,NULL,0,0,19,'2026-03-05',0,0,'','','');
INSERT INTO "item" VALUES(5,'float','pole 4×12 tip 1.2 mm','pole 4×12 tip 1.2 mm','',1,NULL,0,1,5,'2026-03-05',0,0,'','','');
INSERT INTO "item" VALUES(6,'weight','shot No 8 tin','shot No 8 tin','',20,NULL,0,16,20,'2026-03-05',0,0,'','','');
INSERT INTO "item" VALUES(7,'weight','shot No 10 tin','shot No 10 tin','',20,NULL,0,16,21,'2026-03-05',0,0,'','','');
INSERT INTO "item" VALUES(8,'winder','winder 13 cm 18 mm','winder 13 cm 18 mm','',1,NULL,0,0,22,'2026-03-05',0,0,'','','');
INSERT INTO "item" VALUES(9,'elastic','elastic 4','elastic 4','',6000,NULL,0,6000,9,'2026-03-05',0,0,'','','6 m');
INSERT INTO "item" VALUES(10,'part','connector','connector','',4,NULL,0,4,10,'2026-03-05',0,0,'','','');
INSERT INTO "item" VALUES(11,'hooklength','hooklength 20 barbless spade to 0.08 mm 0.7 kg 15 cm','hooklength 20 barbless spade to 0.08 mm 0.7 kg 15 cm','',10,NULL,0,0,32,'2026-03-05',0,0,'','','');
INSERT INTO "item" VALUES(12,'hook','hook 22 barbless spade','undone','',10,NULL,0,0,34,'2026-03-05',1,0,'','','');
CREATE TABLE line (
	item_id INTEGER NOT NULL, 
	material VARCHAR NOT NULL, 
	sort VARCHAR NOT NULL, 
	diameter_mm FLOAT, 
	diameter_said VARCHAR NOT NULL, 
	breaks_at_kg FLOAT, 
	strain_said VARCHAR NOT NULL, 
	colour VARCHAR NOT NULL, 
	maker VARCHAR NOT NULL, 
	PRIMARY KEY (item_id), 
	FOREIGN KEY(item_id) REFERENCES item (id)
);
INSERT INTO "line" VALUES(1,'nylon','',0.08,'0.08 mm',0.7,'0.7 kg','','');
INSERT INTO "line" VALUES(2,'nylon','',0.12,'0.12 mm',1.6,'1.6 kg','','');
CREATE TABLE measurement (
	id INTEGER NOT NULL, 
	item_id INTEGER, 
	what VARCHAR NOT NULL, 
	breaks_at_kg FLOAT, 
	mass_g FLOAT, 
	knot VARCHAR NOT NULL, 
	count INTEGER NOT NULL, 
	takes_back INTEGER, 
	"on" DATE NOT NULL, 
	action_id INTEGER, 
	bait VARCHAR NOT NULL, 
	distance_mm FLOAT, 
	seconds FLOAT, 
	water_c FLOAT, 
	PRIMARY KEY (id), 
	FOREIGN KEY(item_id) REFERENCES item (id), 
	FOREIGN KEY(takes_back) REFERENCES measurement (id), 
	FOREIGN KEY(action_id) REFERENCES action (id)
);
INSERT INTO "measurement" VALUES(1,2,'pull',1.5,NULL,'',1,NULL,'2026-03-05',20,'',NULL,NULL,NULL);
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
INSERT INTO "movement" VALUES(23,11,14,1,'tied','2026-03-05','A03P');
INSERT INTO "movement" VALUES(24,1,14,-350,'tied','2026-03-05','hooklength-fine');
INSERT INTO "movement" VALUES(25,3,14,-1,'tied','2026-03-05','hooklength-fine');
INSERT INTO "movement" VALUES(26,11,15,-1,'lost','2026-03-05','lost A03P');
INSERT INTO "movement" VALUES(27,11,16,2,'tied','2026-03-05','A04N');
INSERT INTO "movement" VALUES(28,1,16,-700,'tied','2026-03-05','hooklength-fine');
INSERT INTO "movement" VALUES(29,3,16,-2,'tied','2026-03-05','hooklength-fine');
INSERT INTO "movement" VALUES(30,1,17,700,'corrected','2026-03-05','against movement 28');
INSERT INTO "movement" VALUES(31,3,17,2,'corrected','2026-03-05','against movement 29');
INSERT INTO "movement" VALUES(32,11,17,-2,'corrected','2026-03-05','against movement 27');
INSERT INTO "movement" VALUES(33,12,18,10,'bought','2026-03-05','');
INSERT INTO "movement" VALUES(34,12,19,-10,'corrected','2026-03-05','against movement 33');
CREATE TABLE part (
	item_id INTEGER NOT NULL, 
	sort VARCHAR NOT NULL, 
	size VARCHAR NOT NULL, 
	breaks_at_kg FLOAT, 
	strain_said VARCHAR NOT NULL, 
	PRIMARY KEY (item_id), 
	FOREIGN KEY(item_id) REFERENCES item (id)
);
INSERT INTO "part" VALUES(10,'connector','',NULL,'');
CREATE TABLE reel (
	id INTEGER NOT NULL, 
	name VARCHAR NOT NULL, 
	what VARCHAR NOT NULL, 
	item_id INTEGER, 
	loaded_mm INTEGER NOT NULL, 
	loaded_on DATE, 
	backing VARCHAR NOT NULL, 
	retired BOOLEAN NOT NULL, 
	withdrawn BOOLEAN NOT NULL, 
	PRIMARY KEY (id), 
	FOREIGN KEY(item_id) REFERENCES item (id)
);
CREATE TABLE setting (
	name VARCHAR NOT NULL, 
	said VARCHAR NOT NULL, 
	PRIMARY KEY (name)
);
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
INSERT INTO "tied" VALUES(1,'A01T',1,'pole-canal-shot','rig','stripped','2026-03-05',NULL,'','{"carries": "pole 4×12", "changed": "", "changed_otherwise": false, "check": "BLQCWX", "code": "A01T", "count": 1, "elastic": "elastic 4", "fall": {"bait": "maggot", "deep_mm": 1200.0, "fished": "at dead depth", "has_bed": true, "notes": ["nobody says how thick its tip is: 1.5 mm × 25 mm taken", "the load takes its float down to a speck: computed for one that just carries it"], "rig": [[472, 0, 0.0], [475, 280, 0.0], [479, 560, 0.0], [482, 700, 0.12], [487, 800, 0.0], [490, 850, 0.04], [508, 999, 0.04], [592, 1179, 0.0]], "says": "settled by 10 s, else strike", "settled_by_s": 10, "slack": [[0.0, 480, 0], [0.3, 480, 17], [0.6, 481, 40], [0.9, 482, 61], [1.2, 479, 82], [1.4, 474, 97], [1.7, 462, 123], [2.0, 451, 155], [2.3, 444, 191], [2.6, 437, 229], [2.9, 431, 268], [3.2, 424, 308], [3.5, 417, 350], [3.8, 411, 393], [4.0, 406, 421], [4.3, 400, 463], [4.6, 395, 503], [4.9, 391, 542], [5.2, 387, 581], [5.5, 384, 620], [5.8, 381, 658], [6.1, 377, 695], [6.3, 375, 719], [6.6, 372, 752], [6.9, 369, 779], [7.2, 367, 800], [7.5, 366, 819], [7.8, 365, 839], [8.1, 364, 860], [8.4, 363, 881], [8.7, 363, 902], [8.9, 364, 916], [9.2, 363, 937], [9.5, 362, 957], [9.8, 361, 977], [10.1, 360, 997], [10.4, 358, 1017], [10.7, 357, 1036], [11.0, 355, 1055], [11.3, 353, 1073], [11.5, 352, 1085], [11.8, 350, 1103], [12.1, 347, 1119], [12.4, 345, 1135], [12.7, 341, 1149], [13.0, 337, 1161], [13.3, 331, 1170], [13.6, 324, 1177], [13.9, 317, 1181]], "tight": [[0.0, 1200, 0], [0.3, 1173, 12], [0.6, 1147, 27], [0.9, 1123, 44], [1.3, 1092, 69], [1.6, 1070, 91], [1.9, 1048, 115], [2.2, 1027, 141], [2.5, 1006, 169], [2.8, 987, 199], [3.2, 962, 242], [3.5, 945, 275], [3.8, 929, 309], [4.1, 914, 343], [4.4, 899, 379], [4.7, 886, 414], [5.1, 868, 462], [5.4, 856, 498], [5.7, 844, 534], [6.0, 832, 570], [6.3, 820, 605], [6.6, 809, 639], [7.0, 793, 684], [7.3, 782, 716], [7.6, 771, 746], [7.9, 760, 774], [8.2, 750, 800], [8.5, 740, 824], [8.9, 729, 853], [9.2, 721, 874], [9.5, 713, 895], [9.8, 706, 915], [10.1, 700, 935], [10.4, 694, 954], [10.8, 686, 979], [11.1, 680, 998], [11.4, 675, 1016], [11.7, 669, 1034], [12.0, 664, 1051], [12.3, 658, 1068], [12.7, 651, 1089], [13.0, 646, 1105], [13.3, 640, 1119], [13.6, 634, 1133], [13.9, 628, 1145], [14.2, 620, 1155], [14.6, 609, 1167], [14.9, 601, 1173], [15.2, 592, 1179]], "water_c": 10.0}, "hook": "20 barbless spade", "hooklength": "15 cm nylon 0.08 mm 0.7 kg", "hooklength_mm": 150.0, "in_tray_before": false, "kind": "rig", "length_mm": 1550.0, "lengths": {"depth": "1.2 m"}, "looked_for": "", "made_from": "", "marks": [{"from_hook_mm": 1700.0, "held": "", "kind": "", "mass_g": 0.0, "side_mm": 0.0, "what": "elastic", "words": "elastic 4"}, {"from_hook_mm": 1700.0, "held": "", "kind": "connector", "mass_g": 0.0, "side_mm": 0.0, "what": "connector", "words": "connector"}, {"from_hook_mm": 1700.0, "held": "", "kind": "double overhand loop", "mass_g": 0.0, "side_mm": 0.0, "what": "loop", "words": "rig line"}, {"from_hook_mm": 1200.0, "held": "two points", "kind": "pole", "mass_g": 0.0, "side_mm": 0.0, "what": "float", "words": "pole 4×12"}, {"from_hook_mm": 500.0, "held": "", "kind": "No 8", "mass_g": 0.06, "side_mm": 0.0, "what": "shot", "words": "bulk"}, {"from_hook_mm": 500.0, "held": "", "kind": "No 8", "mass_g": 0.06, "side_mm": 0.0, "what": "shot", "words": "bulk"}, {"from_hook_mm": 350.0, "held": "", "kind": "No 10", "mass_g": 0.04, "side_mm": 0.0, "what": "shot", "words": "droppers"}, {"from_hook_mm": 200.0, "held": "", "kind": "No 10", "mass_g": 0.04, "side_mm": 0.0, "what": "shot", "words": "droppers"}, {"from_hook_mm": 150.0, "held": "", "kind": "double overhand loop", "mass_g": 0.0, "side_mm": 0.0, "what": "loop", "words": "rig line"}, {"from_hook_mm": 150.0, "held": "", "kind": "figure-of-eight loop", "mass_g": 0.0, "side_mm": 0.0, "what": "loop", "words": "hooklength line"}, {"from_hook_mm": 0.0, "held": "", "kind": "20", "mass_g": 0.0, "side_mm": 0.0, "what": "hook", "words": "hook 20 barbless spade"}], "method": "pole", "name": "Canal pole, shot", "outcome": "sound", "over": "", "plumbed": "", "purpose": "small roach and gudgeon, canal, down the far shelf", "recipe": "pole-canal-shot", "rig_line": "nylon 0.12 mm 1.6 kg", "set_for": "depth 1.2 m", "shot": "2 No 8 at 50 cm, 2 No 10 20–35 cm", "size": "4×12", "sizes": {"float": "4×12"}, "tied_on": "2026-03-05", "winder_length_mm": 130.0, "winder_width_mm": 18.0}',11);
INSERT INTO "tied" VALUES(2,'A02R',2,'pole-canal-shot','rig','ready','2026-03-05','2026-03-05','','{"carries": "pole 4×12", "changed": "", "changed_otherwise": false, "check": "WHJMHN", "code": "A02R", "count": 1, "elastic": "elastic 4", "fall": {"bait": "maggot", "deep_mm": 1200.0, "fished": "at dead depth", "has_bed": true, "notes": ["nobody says how thick its tip is: 1.5 mm × 25 mm taken", "the load takes its float down to a speck: computed for one that just carries it"], "rig": [[472, 0, 0.0], [475, 280, 0.0], [479, 560, 0.0], [482, 700, 0.12], [487, 800, 0.0], [490, 850, 0.04], [508, 999, 0.04], [592, 1179, 0.0]], "says": "settled by 10 s, else strike", "settled_by_s": 10, "slack": [[0.0, 480, 0], [0.3, 480, 17], [0.6, 481, 40], [0.9, 482, 61], [1.2, 479, 82], [1.4, 474, 97], [1.7, 462, 123], [2.0, 451, 155], [2.3, 444, 191], [2.6, 437, 229], [2.9, 431, 268], [3.2, 424, 308], [3.5, 417, 350], [3.8, 411, 393], [4.0, 406, 421], [4.3, 400, 463], [4.6, 395, 503], [4.9, 391, 542], [5.2, 387, 581], [5.5, 384, 620], [5.8, 381, 658], [6.1, 377, 695], [6.3, 375, 719], [6.6, 372, 752], [6.9, 369, 779], [7.2, 367, 800], [7.5, 366, 819], [7.8, 365, 839], [8.1, 364, 860], [8.4, 363, 881], [8.7, 363, 902], [8.9, 364, 916], [9.2, 363, 937], [9.5, 362, 957], [9.8, 361, 977], [10.1, 360, 997], [10.4, 358, 1017], [10.7, 357, 1036], [11.0, 355, 1055], [11.3, 353, 1073], [11.5, 352, 1085], [11.8, 350, 1103], [12.1, 347, 1119], [12.4, 345, 1135], [12.7, 341, 1149], [13.0, 337, 1161], [13.3, 331, 1170], [13.6, 324, 1177], [13.9, 317, 1181]], "tight": [[0.0, 1200, 0], [0.3, 1173, 12], [0.6, 1147, 27], [0.9, 1123, 44], [1.3, 1092, 69], [1.6, 1070, 91], [1.9, 1048, 115], [2.2, 1027, 141], [2.5, 1006, 169], [2.8, 987, 199], [3.2, 962, 242], [3.5, 945, 275], [3.8, 929, 309], [4.1, 914, 343], [4.4, 899, 379], [4.7, 886, 414], [5.1, 868, 462], [5.4, 856, 498], [5.7, 844, 534], [6.0, 832, 570], [6.3, 820, 605], [6.6, 809, 639], [7.0, 793, 684], [7.3, 782, 716], [7.6, 771, 746], [7.9, 760, 774], [8.2, 750, 800], [8.5, 740, 824], [8.9, 729, 853], [9.2, 721, 874], [9.5, 713, 895], [9.8, 706, 915], [10.1, 700, 935], [10.4, 694, 954], [10.8, 686, 979], [11.1, 680, 998], [11.4, 675, 1016], [11.7, 669, 1034], [12.0, 664, 1051], [12.3, 658, 1068], [12.7, 651, 1089], [13.0, 646, 1105], [13.3, 640, 1119], [13.6, 634, 1133], [13.9, 628, 1145], [14.2, 620, 1155], [14.6, 609, 1167], [14.9, 601, 1173], [15.2, 592, 1179]], "water_c": 10.0}, "hook": "20 barbless spade", "hooklength": "15 cm nylon 0.08 mm 0.7 kg", "hooklength_mm": 150.0, "in_tray_before": false, "kind": "rig", "length_mm": 1550.0, "lengths": {"depth": "1.2 m"}, "looked_for": "", "made_from": "", "marks": [{"from_hook_mm": 1700.0, "held": "", "kind": "", "mass_g": 0.0, "side_mm": 0.0, "what": "elastic", "words": "elastic 4"}, {"from_hook_mm": 1700.0, "held": "", "kind": "connector", "mass_g": 0.0, "side_mm": 0.0, "what": "connector", "words": "connector"}, {"from_hook_mm": 1700.0, "held": "", "kind": "double overhand loop", "mass_g": 0.0, "side_mm": 0.0, "what": "loop", "words": "rig line"}, {"from_hook_mm": 1200.0, "held": "two points", "kind": "pole", "mass_g": 0.0, "side_mm": 0.0, "what": "float", "words": "pole 4×12"}, {"from_hook_mm": 500.0, "held": "", "kind": "No 8", "mass_g": 0.06, "side_mm": 0.0, "what": "shot", "words": "bulk"}, {"from_hook_mm": 500.0, "held": "", "kind": "No 8", "mass_g": 0.06, "side_mm": 0.0, "what": "shot", "words": "bulk"}, {"from_hook_mm": 350.0, "held": "", "kind": "No 10", "mass_g": 0.04, "side_mm": 0.0, "what": "shot", "words": "droppers"}, {"from_hook_mm": 200.0, "held": "", "kind": "No 10", "mass_g": 0.04, "side_mm": 0.0, "what": "shot", "words": "droppers"}, {"from_hook_mm": 150.0, "held": "", "kind": "double overhand loop", "mass_g": 0.0, "side_mm": 0.0, "what": "loop", "words": "rig line"}, {"from_hook_mm": 150.0, "held": "", "kind": "figure-of-eight loop", "mass_g": 0.0, "side_mm": 0.0, "what": "loop", "words": "hooklength line"}, {"from_hook_mm": 0.0, "held": "", "kind": "20", "mass_g": 0.0, "side_mm": 0.0, "what": "hook", "words": "hook 20 barbless spade"}], "method": "pole", "name": "Canal pole, shot", "outcome": "sound", "over": "", "plumbed": "", "purpose": "small roach and gudgeon, canal, down the far shelf", "recipe": "pole-canal-shot", "rig_line": "nylon 0.12 mm 1.6 kg", "set_for": "depth 1.2 m", "shot": "2 No 8 at 50 cm, 2 No 10 20–35 cm", "size": "4×12", "sizes": {"float": "4×12"}, "tied_on": "2026-03-05", "winder_length_mm": 130.0, "winder_width_mm": 18.0}',13);
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
CREATE TABLE weight (
	item_id INTEGER NOT NULL, 
	form VARCHAR NOT NULL, 
	mark VARCHAR NOT NULL, 
	mass_g FLOAT, 
	material VARCHAR NOT NULL, 
	PRIMARY KEY (item_id), 
	FOREIGN KEY(item_id) REFERENCES item (id)
);
INSERT INTO "weight" VALUES(6,'shot','No 8',0.06,'tin');
INSERT INTO "weight" VALUES(7,'shot','No 10',0.04,'tin');
CREATE TABLE winder (
	item_id INTEGER NOT NULL, 
	length_mm FLOAT NOT NULL, 
	length_said VARCHAR NOT NULL, 
	width_mm FLOAT NOT NULL, 
	width_said VARCHAR NOT NULL, 
	colour VARCHAR NOT NULL, 
	PRIMARY KEY (item_id), 
	FOREIGN KEY(item_id) REFERENCES item (id)
);
INSERT INTO "winder" VALUES(8,130.0,'13 cm',18.0,'18 mm','');
CREATE INDEX ix_item_words ON item (words);
CREATE UNIQUE INDEX one_item_of_a_name ON item (name) WHERE NOT withdrawn AND NOT retired;
CREATE INDEX ix_item_kind ON item (kind);
CREATE INDEX ix_action_reversals ON action (id) WHERE undoes IS NOT NULL OR redoes IS NOT NULL;
CREATE INDEX ix_change_action_id ON change (action_id);
CREATE INDEX ix_movement_action_id ON movement (action_id);
CREATE INDEX ix_movement_item_id ON movement (item_id);
CREATE INDEX ix_measurement_action_id ON measurement (action_id);
CREATE INDEX ix_measurement_item_id ON measurement (item_id);
CREATE UNIQUE INDEX one_reel_of_a_name ON reel (name) WHERE NOT withdrawn AND NOT retired;
CREATE INDEX ix_reel_item_id ON reel (item_id);
CREATE INDEX ix_tied_state ON tied (state);
CREATE INDEX ix_tied_recipe ON tied (recipe);
CREATE INDEX ix_batch_action_id ON batch (action_id);
CREATE INDEX ix_batch_item_id ON batch (item_id);
CREATE INDEX ix_debrief_action_id ON debrief (action_id);
CREATE INDEX ix_debrief_match ON debrief ("match");
CREATE INDEX ix_tieduse_tied_id ON tieduse (tied_id);
CREATE INDEX ix_tieduse_item_id ON tieduse (item_id);
CREATE INDEX ix_batchuse_batch_id ON batchuse (batch_id);
CREATE INDEX ix_batchuse_item_id ON batchuse (item_id);
CREATE INDEX ix_statechange_action_id ON statechange (action_id);
CREATE INDEX ix_statechange_tied_id ON statechange (tied_id);
CREATE INDEX ix_debriefrig_tied_id ON debriefrig (tied_id);
CREATE INDEX ix_debriefrig_debrief_id ON debriefrig (debrief_id);
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
           WHEN NEW.kind <> OLD.kind OR NEW.added_on <> OLD.added_on
           OR (NEW.words <> OLD.words AND (OLD.kind <> 'line'
           OR substr(NEW.words || ' ', 1, instr(NEW.words || ' maker ', ' maker '))
           <> substr(OLD.words || ' ', 1, instr(OLD.words || ' maker ', ' maker '))) AND (EXISTS (SELECT 1 FROM tieduse u JOIN tied t ON t.id = u.tied_id
            WHERE u.item_id = OLD.id AND t.state <> 'untied')
           OR EXISTS (SELECT 1 FROM batchuse u JOIN batch b ON b.id = u.batch_id
            WHERE u.item_id = OLD.id AND b."left" > 0)
           OR EXISTS (SELECT 1 FROM batch b WHERE b.item_id = OLD.id AND b."left" > 0))) BEGIN SELECT RAISE(ABORT, 'what an item is is never changed'); END;
CREATE TRIGGER item_is_never_deleted BEFORE DELETE ON item BEGIN SELECT RAISE(ABORT, 'items are never deleted'); END;
CREATE TRIGGER line_stays_once_tied_from BEFORE UPDATE ON line WHEN (NEW."material" IS NOT OLD."material" OR NEW."diameter_mm" IS NOT OLD."diameter_mm" OR NEW."diameter_said" IS NOT OLD."diameter_said" OR NEW."breaks_at_kg" IS NOT OLD."breaks_at_kg" OR NEW."strain_said" IS NOT OLD."strain_said" OR NEW."sort" IS NOT OLD."sort" OR NEW."colour" IS NOT OLD."colour") AND (EXISTS (SELECT 1 FROM tieduse u JOIN tied t ON t.id = u.tied_id
            WHERE u.item_id = OLD.item_id AND t.state <> 'untied')
           OR EXISTS (SELECT 1 FROM batchuse u JOIN batch b ON b.id = u.batch_id
            WHERE u.item_id = OLD.item_id AND b."left" > 0)
           OR EXISTS (SELECT 1 FROM batch b WHERE b.item_id = OLD.item_id AND b."left" > 0)) BEGIN SELECT RAISE(ABORT, 'figures of what was tied from stay'); END;
CREATE TRIGGER line_keeps_its_item BEFORE UPDATE OF item_id ON line WHEN NEW.item_id <> OLD.item_id BEGIN SELECT RAISE(ABORT, 'figures keep their item'); END;
CREATE TRIGGER line_is_never_deleted BEFORE DELETE ON line BEGIN SELECT RAISE(ABORT, 'figures are never deleted'); END;
CREATE TRIGGER line_is_never_replaced BEFORE INSERT ON line WHEN EXISTS (SELECT 1 FROM line WHERE item_id = NEW.item_id) BEGIN SELECT RAISE(ABORT, 'figures are never replaced'); END;
CREATE TRIGGER hook_stays_once_tied_from BEFORE UPDATE ON hook WHEN (NEW."size" IS NOT OLD."size" OR NEW."size_order" IS NOT OLD."size_order" OR NEW."end" IS NOT OLD."end" OR NEW."eye" IS NOT OLD."eye" OR NEW."barb" IS NOT OLD."barb" OR NEW."wire" IS NOT OLD."wire" OR NEW."bend" IS NOT OLD."bend" OR NEW."colour" IS NOT OLD."colour") AND (EXISTS (SELECT 1 FROM tieduse u JOIN tied t ON t.id = u.tied_id
            WHERE u.item_id = OLD.item_id AND t.state <> 'untied')
           OR EXISTS (SELECT 1 FROM batchuse u JOIN batch b ON b.id = u.batch_id
            WHERE u.item_id = OLD.item_id AND b."left" > 0)
           OR EXISTS (SELECT 1 FROM batch b WHERE b.item_id = OLD.item_id AND b."left" > 0)) BEGIN SELECT RAISE(ABORT, 'figures of what was tied from stay'); END;
CREATE TRIGGER hook_keeps_its_item BEFORE UPDATE OF item_id ON hook WHEN NEW.item_id <> OLD.item_id BEGIN SELECT RAISE(ABORT, 'figures keep their item'); END;
CREATE TRIGGER hook_is_never_deleted BEFORE DELETE ON hook BEGIN SELECT RAISE(ABORT, 'figures are never deleted'); END;
CREATE TRIGGER hook_is_never_replaced BEFORE INSERT ON hook WHEN EXISTS (SELECT 1 FROM hook WHERE item_id = NEW.item_id) BEGIN SELECT RAISE(ABORT, 'figures are never replaced'); END;
CREATE TRIGGER hooklength_stays_once_tied_from BEFORE UPDATE ON hooklength WHEN (NEW."size" IS NOT OLD."size" OR NEW."size_order" IS NOT OLD."size_order" OR NEW."end" IS NOT OLD."end" OR NEW."eye" IS NOT OLD."eye" OR NEW."barb" IS NOT OLD."barb" OR NEW."wire" IS NOT OLD."wire" OR NEW."bend" IS NOT OLD."bend" OR NEW."colour" IS NOT OLD."colour" OR NEW."material" IS NOT OLD."material" OR NEW."diameter_mm" IS NOT OLD."diameter_mm" OR NEW."diameter_said" IS NOT OLD."diameter_said" OR NEW."breaks_at_kg" IS NOT OLD."breaks_at_kg" OR NEW."strain_said" IS NOT OLD."strain_said" OR NEW."length_mm" IS NOT OLD."length_mm" OR NEW."length_said" IS NOT OLD."length_said" OR NEW."bait" IS NOT OLD."bait") AND (EXISTS (SELECT 1 FROM tieduse u JOIN tied t ON t.id = u.tied_id
            WHERE u.item_id = OLD.item_id AND t.state <> 'untied')
           OR EXISTS (SELECT 1 FROM batchuse u JOIN batch b ON b.id = u.batch_id
            WHERE u.item_id = OLD.item_id AND b."left" > 0)
           OR EXISTS (SELECT 1 FROM batch b WHERE b.item_id = OLD.item_id AND b."left" > 0)) BEGIN SELECT RAISE(ABORT, 'figures of what was tied from stay'); END;
CREATE TRIGGER hooklength_keeps_its_item BEFORE UPDATE OF item_id ON hooklength WHEN NEW.item_id <> OLD.item_id BEGIN SELECT RAISE(ABORT, 'figures keep their item'); END;
CREATE TRIGGER hooklength_is_never_deleted BEFORE DELETE ON hooklength BEGIN SELECT RAISE(ABORT, 'figures are never deleted'); END;
CREATE TRIGGER hooklength_is_never_replaced BEFORE INSERT ON hooklength WHEN EXISTS (SELECT 1 FROM hooklength WHERE item_id = NEW.item_id) BEGIN SELECT RAISE(ABORT, 'figures are never replaced'); END;
CREATE TRIGGER float_stays_once_tied_from BEFORE UPDATE ON float WHEN (NEW."shape" IS NOT OLD."shape" OR NEW."mark" IS NOT OLD."mark" OR NEW."capacity_g" IS NOT OLD."capacity_g" OR NEW."carries_said" IS NOT OLD."carries_said" OR NEW."body" IS NOT OLD."body" OR NEW."material" IS NOT OLD."material" OR NEW."stem" IS NOT OLD."stem" OR NEW."tip" IS NOT OLD."tip" OR NEW."colour" IS NOT OLD."colour" OR NEW."tip_diameter_mm" IS NOT OLD."tip_diameter_mm" OR NEW."tip_diameter_said" IS NOT OLD."tip_diameter_said" OR NEW."tip_length_mm" IS NOT OLD."tip_length_mm" OR NEW."tip_length_said" IS NOT OLD."tip_length_said") AND (EXISTS (SELECT 1 FROM tieduse u JOIN tied t ON t.id = u.tied_id
            WHERE u.item_id = OLD.item_id AND t.state <> 'untied')
           OR EXISTS (SELECT 1 FROM batchuse u JOIN batch b ON b.id = u.batch_id
            WHERE u.item_id = OLD.item_id AND b."left" > 0)
           OR EXISTS (SELECT 1 FROM batch b WHERE b.item_id = OLD.item_id AND b."left" > 0)) BEGIN SELECT RAISE(ABORT, 'figures of what was tied from stay'); END;
CREATE TRIGGER float_keeps_its_item BEFORE UPDATE OF item_id ON float WHEN NEW.item_id <> OLD.item_id BEGIN SELECT RAISE(ABORT, 'figures keep their item'); END;
CREATE TRIGGER float_is_never_deleted BEFORE DELETE ON float BEGIN SELECT RAISE(ABORT, 'figures are never deleted'); END;
CREATE TRIGGER float_is_never_replaced BEFORE INSERT ON float WHEN EXISTS (SELECT 1 FROM float WHERE item_id = NEW.item_id) BEGIN SELECT RAISE(ABORT, 'figures are never replaced'); END;
CREATE TRIGGER weight_stays_once_tied_from BEFORE UPDATE ON weight WHEN (NEW."form" IS NOT OLD."form" OR NEW."mark" IS NOT OLD."mark" OR NEW."mass_g" IS NOT OLD."mass_g" OR NEW."material" IS NOT OLD."material") AND (EXISTS (SELECT 1 FROM tieduse u JOIN tied t ON t.id = u.tied_id
            WHERE u.item_id = OLD.item_id AND t.state <> 'untied')
           OR EXISTS (SELECT 1 FROM batchuse u JOIN batch b ON b.id = u.batch_id
            WHERE u.item_id = OLD.item_id AND b."left" > 0)
           OR EXISTS (SELECT 1 FROM batch b WHERE b.item_id = OLD.item_id AND b."left" > 0)) BEGIN SELECT RAISE(ABORT, 'figures of what was tied from stay'); END;
CREATE TRIGGER weight_keeps_its_item BEFORE UPDATE OF item_id ON weight WHEN NEW.item_id <> OLD.item_id BEGIN SELECT RAISE(ABORT, 'figures keep their item'); END;
CREATE TRIGGER weight_is_never_deleted BEFORE DELETE ON weight BEGIN SELECT RAISE(ABORT, 'figures are never deleted'); END;
CREATE TRIGGER weight_is_never_replaced BEFORE INSERT ON weight WHEN EXISTS (SELECT 1 FROM weight WHERE item_id = NEW.item_id) BEGIN SELECT RAISE(ABORT, 'figures are never replaced'); END;
CREATE TRIGGER feeder_stays_once_tied_from BEFORE UPDATE ON feeder WHEN (NEW."shape" IS NOT OLD."shape" OR NEW."fitting" IS NOT OLD."fitting" OR NEW."mass_g" IS NOT OLD."mass_g" OR NEW."mass_said" IS NOT OLD."mass_said" OR NEW."size" IS NOT OLD."size" OR NEW."volume_ml" IS NOT OLD."volume_ml" OR NEW."volume_said" IS NOT OLD."volume_said") AND (EXISTS (SELECT 1 FROM tieduse u JOIN tied t ON t.id = u.tied_id
            WHERE u.item_id = OLD.item_id AND t.state <> 'untied')
           OR EXISTS (SELECT 1 FROM batchuse u JOIN batch b ON b.id = u.batch_id
            WHERE u.item_id = OLD.item_id AND b."left" > 0)
           OR EXISTS (SELECT 1 FROM batch b WHERE b.item_id = OLD.item_id AND b."left" > 0)) BEGIN SELECT RAISE(ABORT, 'figures of what was tied from stay'); END;
CREATE TRIGGER feeder_keeps_its_item BEFORE UPDATE OF item_id ON feeder WHEN NEW.item_id <> OLD.item_id BEGIN SELECT RAISE(ABORT, 'figures keep their item'); END;
CREATE TRIGGER feeder_is_never_deleted BEFORE DELETE ON feeder BEGIN SELECT RAISE(ABORT, 'figures are never deleted'); END;
CREATE TRIGGER feeder_is_never_replaced BEFORE INSERT ON feeder WHEN EXISTS (SELECT 1 FROM feeder WHERE item_id = NEW.item_id) BEGIN SELECT RAISE(ABORT, 'figures are never replaced'); END;
CREATE TRIGGER part_stays_once_tied_from BEFORE UPDATE ON part WHEN (NEW."sort" IS NOT OLD."sort" OR NEW."size" IS NOT OLD."size" OR NEW."breaks_at_kg" IS NOT OLD."breaks_at_kg" OR NEW."strain_said" IS NOT OLD."strain_said") AND (EXISTS (SELECT 1 FROM tieduse u JOIN tied t ON t.id = u.tied_id
            WHERE u.item_id = OLD.item_id AND t.state <> 'untied')
           OR EXISTS (SELECT 1 FROM batchuse u JOIN batch b ON b.id = u.batch_id
            WHERE u.item_id = OLD.item_id AND b."left" > 0)
           OR EXISTS (SELECT 1 FROM batch b WHERE b.item_id = OLD.item_id AND b."left" > 0)) BEGIN SELECT RAISE(ABORT, 'figures of what was tied from stay'); END;
CREATE TRIGGER part_keeps_its_item BEFORE UPDATE OF item_id ON part WHEN NEW.item_id <> OLD.item_id BEGIN SELECT RAISE(ABORT, 'figures keep their item'); END;
CREATE TRIGGER part_is_never_deleted BEFORE DELETE ON part BEGIN SELECT RAISE(ABORT, 'figures are never deleted'); END;
CREATE TRIGGER part_is_never_replaced BEFORE INSERT ON part WHEN EXISTS (SELECT 1 FROM part WHERE item_id = NEW.item_id) BEGIN SELECT RAISE(ABORT, 'figures are never replaced'); END;
CREATE TRIGGER elastic_stays_once_tied_from BEFORE UPDATE ON elastic WHEN (NEW."grade" IS NOT OLD."grade" OR NEW."grade_to" IS NOT OLD."grade_to" OR NEW."core" IS NOT OLD."core" OR NEW."colour" IS NOT OLD."colour") AND (EXISTS (SELECT 1 FROM tieduse u JOIN tied t ON t.id = u.tied_id
            WHERE u.item_id = OLD.item_id AND t.state <> 'untied')
           OR EXISTS (SELECT 1 FROM batchuse u JOIN batch b ON b.id = u.batch_id
            WHERE u.item_id = OLD.item_id AND b."left" > 0)
           OR EXISTS (SELECT 1 FROM batch b WHERE b.item_id = OLD.item_id AND b."left" > 0)) BEGIN SELECT RAISE(ABORT, 'figures of what was tied from stay'); END;
CREATE TRIGGER elastic_keeps_its_item BEFORE UPDATE OF item_id ON elastic WHEN NEW.item_id <> OLD.item_id BEGIN SELECT RAISE(ABORT, 'figures keep their item'); END;
CREATE TRIGGER elastic_is_never_deleted BEFORE DELETE ON elastic BEGIN SELECT RAISE(ABORT, 'figures are never deleted'); END;
CREATE TRIGGER elastic_is_never_replaced BEFORE INSERT ON elastic WHEN EXISTS (SELECT 1 FROM elastic WHERE item_id = NEW.item_id) BEGIN SELECT RAISE(ABORT, 'figures are never replaced'); END;
CREATE TRIGGER winder_stays_once_tied_from BEFORE UPDATE ON winder WHEN (NEW."length_mm" IS NOT OLD."length_mm" OR NEW."length_said" IS NOT OLD."length_said" OR NEW."width_mm" IS NOT OLD."width_mm" OR NEW."width_said" IS NOT OLD."width_said" OR NEW."colour" IS NOT OLD."colour") AND (EXISTS (SELECT 1 FROM tieduse u JOIN tied t ON t.id = u.tied_id
            WHERE u.item_id = OLD.item_id AND t.state <> 'untied')
           OR EXISTS (SELECT 1 FROM batchuse u JOIN batch b ON b.id = u.batch_id
            WHERE u.item_id = OLD.item_id AND b."left" > 0)
           OR EXISTS (SELECT 1 FROM batch b WHERE b.item_id = OLD.item_id AND b."left" > 0)) BEGIN SELECT RAISE(ABORT, 'figures of what was tied from stay'); END;
CREATE TRIGGER winder_keeps_its_item BEFORE UPDATE OF item_id ON winder WHEN NEW.item_id <> OLD.item_id BEGIN SELECT RAISE(ABORT, 'figures keep their item'); END;
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
CREATE TRIGGER batchuse_is_never_changed BEFORE UPDATE ON batchuse BEGIN SELECT RAISE(ABORT, 'uses of batches are never changed'); END;
CREATE TRIGGER batchuse_is_never_deleted BEFORE DELETE ON batchuse BEGIN SELECT RAISE(ABORT, 'uses of batches are never deleted'); END;
CREATE TRIGGER batchuse_is_never_replaced BEFORE INSERT ON batchuse WHEN EXISTS (SELECT 1 FROM batchuse WHERE id = NEW.id) BEGIN SELECT RAISE(ABORT, 'uses of batches are never replaced'); END;
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
CREATE TRIGGER sheetinuse_first_next_free_is_remembered AFTER INSERT ON sheetinuse BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'sheetinuse', NEW.paper, 'next_free',
                   '1', json_quote(NEW."next_free"));
       END;
CREATE TRIGGER batch_stays_as_tied BEFORE UPDATE OF id, code, code_number, item_id, action_id, recipe, tied_on, tied, forced_because,
             snapshot ON batch
           WHEN NEW.id <> OLD.id OR NEW.code <> OLD.code OR NEW.code_number <> OLD.code_number
           OR NEW.item_id <> OLD.item_id OR NEW.action_id <> OLD.action_id OR NEW.recipe <> OLD.recipe
           OR NEW.tied_on <> OLD.tied_on OR NEW.tied <> OLD.tied
           OR NEW.forced_because <> OLD.forced_because OR NEW.snapshot <> OLD.snapshot BEGIN SELECT RAISE(ABORT, 'what was tied is never changed'); END;
CREATE TRIGGER batch_holds_no_more_than_was_tied BEFORE UPDATE OF "left" ON batch WHEN NEW."left" < 0 OR NEW."left" > OLD.tied BEGIN SELECT RAISE(ABORT, 'a batch holds no more than was tied'); END;
CREATE TRIGGER batch_is_never_deleted BEFORE DELETE ON batch BEGIN SELECT RAISE(ABORT, 'batches are never deleted'); END;
CREATE TRIGGER batch_is_never_replaced BEFORE INSERT ON batch WHEN EXISTS (SELECT 1 FROM batch WHERE id = NEW.id) BEGIN SELECT RAISE(ABORT, 'batches are never replaced'); END;
CREATE TRIGGER batch_first_left_is_remembered AFTER INSERT ON batch BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'batch', NEW.id, 'left',
                   '0', json_quote(NEW."left"));
       END;
CREATE TRIGGER reel_stays_what_it_is BEFORE UPDATE OF id, what ON reel WHEN NEW.id <> OLD.id OR NEW.what <> OLD.what BEGIN SELECT RAISE(ABORT, 'a reel stays a reel'); END;
CREATE TRIGGER reel_is_never_deleted BEFORE DELETE ON reel BEGIN SELECT RAISE(ABORT, 'reels are never deleted'); END;
CREATE TRIGGER reel_is_never_replaced BEFORE INSERT ON reel WHEN EXISTS (SELECT 1 FROM reel WHERE id = NEW.id) BEGIN SELECT RAISE(ABORT, 'reels are never replaced'); END;
CREATE TRIGGER reel_first_withdrawn_is_remembered AFTER INSERT ON reel BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'reel', NEW.id, 'withdrawn',
                   '1', json_quote(NEW."withdrawn"));
       END;
CREATE TRIGGER reel_holds_no_less_than_nothing BEFORE UPDATE OF loaded_mm ON reel WHEN NEW.loaded_mm < 0 BEGIN SELECT RAISE(ABORT, 'a reel holds no less than nothing'); END;
CREATE TRIGGER setting_is_never_deleted BEFORE DELETE ON setting BEGIN SELECT RAISE(ABORT, 'settings are never deleted'); END;
CREATE TRIGGER setting_is_never_replaced BEFORE INSERT ON setting WHEN EXISTS (SELECT 1 FROM setting WHERE name = NEW.name) BEGIN SELECT RAISE(ABORT, 'settings are never replaced'); END;
CREATE TRIGGER setting_keeps_its_name BEFORE UPDATE OF name ON setting WHEN NEW.name <> OLD.name BEGIN SELECT RAISE(ABORT, 'a setting keeps its name'); END;
CREATE TRIGGER setting_first_said_is_remembered AFTER INSERT ON setting BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'setting', NEW.name, 'said',
                   '""', json_quote(NEW."said"));
       END;
CREATE TRIGGER item_words_is_remembered AFTER UPDATE OF "words" ON item
         WHEN NEW."words" IS NOT OLD."words" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'item', NEW.id, 'words',
                   json_quote(OLD."words"), json_quote(NEW."words"));
       END;
CREATE TRIGGER item_name_is_remembered AFTER UPDATE OF "name" ON item
         WHEN NEW."name" IS NOT OLD."name" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'item', NEW.id, 'name',
                   json_quote(OLD."name"), json_quote(NEW."name"));
       END;
CREATE TRIGGER item_place_is_remembered AFTER UPDATE OF "place" ON item
         WHEN NEW."place" IS NOT OLD."place" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'item', NEW.id, 'place',
                   json_quote(OLD."place"), json_quote(NEW."place"));
       END;
CREATE TRIGGER item_pack_size_is_remembered AFTER UPDATE OF "pack_size" ON item
         WHEN NEW."pack_size" IS NOT OLD."pack_size" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'item', NEW.id, 'pack_size',
                   json_quote(OLD."pack_size"), json_quote(NEW."pack_size"));
       END;
CREATE TRIGGER item_pack_said_is_remembered AFTER UPDATE OF "pack_said" ON item
         WHEN NEW."pack_said" IS NOT OLD."pack_said" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'item', NEW.id, 'pack_said',
                   json_quote(OLD."pack_said"), json_quote(NEW."pack_said"));
       END;
CREATE TRIGGER item_pack_price_cents_is_remembered AFTER UPDATE OF "pack_price_cents" ON item
         WHEN NEW."pack_price_cents" IS NOT OLD."pack_price_cents" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'item', NEW.id, 'pack_price_cents',
                   json_quote(OLD."pack_price_cents"), json_quote(NEW."pack_price_cents"));
       END;
CREATE TRIGGER item_minimum_is_remembered AFTER UPDATE OF "minimum" ON item
         WHEN NEW."minimum" IS NOT OLD."minimum" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'item', NEW.id, 'minimum',
                   json_quote(OLD."minimum"), json_quote(NEW."minimum"));
       END;
CREATE TRIGGER item_note_is_remembered AFTER UPDATE OF "note" ON item
         WHEN NEW."note" IS NOT OLD."note" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'item', NEW.id, 'note',
                   json_quote(OLD."note"), json_quote(NEW."note"));
       END;
CREATE TRIGGER item_level_is_remembered AFTER UPDATE OF "level" ON item
         WHEN NEW."level" IS NOT OLD."level" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'item', NEW.id, 'level',
                   json_quote(OLD."level"), json_quote(NEW."level"));
       END;
CREATE TRIGGER item_retired_is_remembered AFTER UPDATE OF "retired" ON item
         WHEN NEW."retired" IS NOT OLD."retired" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'item', NEW.id, 'retired',
                   json_quote(OLD."retired"), json_quote(NEW."retired"));
       END;
CREATE TRIGGER item_withdrawn_is_remembered AFTER UPDATE OF "withdrawn" ON item
         WHEN NEW."withdrawn" IS NOT OLD."withdrawn" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'item', NEW.id, 'withdrawn',
                   json_quote(OLD."withdrawn"), json_quote(NEW."withdrawn"));
       END;
CREATE TRIGGER line_material_is_remembered AFTER UPDATE OF "material" ON line
         WHEN NEW."material" IS NOT OLD."material" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'line', NEW.item_id, 'material',
                   json_quote(OLD."material"), json_quote(NEW."material"));
       END;
CREATE TRIGGER line_diameter_mm_is_remembered AFTER UPDATE OF "diameter_mm" ON line
         WHEN NEW."diameter_mm" IS NOT OLD."diameter_mm" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'line', NEW.item_id, 'diameter_mm',
                   json_quote(OLD."diameter_mm"), json_quote(NEW."diameter_mm"));
       END;
CREATE TRIGGER line_diameter_said_is_remembered AFTER UPDATE OF "diameter_said" ON line
         WHEN NEW."diameter_said" IS NOT OLD."diameter_said" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'line', NEW.item_id, 'diameter_said',
                   json_quote(OLD."diameter_said"), json_quote(NEW."diameter_said"));
       END;
CREATE TRIGGER line_breaks_at_kg_is_remembered AFTER UPDATE OF "breaks_at_kg" ON line
         WHEN NEW."breaks_at_kg" IS NOT OLD."breaks_at_kg" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'line', NEW.item_id, 'breaks_at_kg',
                   json_quote(OLD."breaks_at_kg"), json_quote(NEW."breaks_at_kg"));
       END;
CREATE TRIGGER line_strain_said_is_remembered AFTER UPDATE OF "strain_said" ON line
         WHEN NEW."strain_said" IS NOT OLD."strain_said" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'line', NEW.item_id, 'strain_said',
                   json_quote(OLD."strain_said"), json_quote(NEW."strain_said"));
       END;
CREATE TRIGGER line_sort_is_remembered AFTER UPDATE OF "sort" ON line
         WHEN NEW."sort" IS NOT OLD."sort" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'line', NEW.item_id, 'sort',
                   json_quote(OLD."sort"), json_quote(NEW."sort"));
       END;
CREATE TRIGGER line_colour_is_remembered AFTER UPDATE OF "colour" ON line
         WHEN NEW."colour" IS NOT OLD."colour" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'line', NEW.item_id, 'colour',
                   json_quote(OLD."colour"), json_quote(NEW."colour"));
       END;
CREATE TRIGGER line_maker_is_remembered AFTER UPDATE OF "maker" ON line
         WHEN NEW."maker" IS NOT OLD."maker" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'line', NEW.item_id, 'maker',
                   json_quote(OLD."maker"), json_quote(NEW."maker"));
       END;
CREATE TRIGGER hook_size_is_remembered AFTER UPDATE OF "size" ON hook
         WHEN NEW."size" IS NOT OLD."size" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'hook', NEW.item_id, 'size',
                   json_quote(OLD."size"), json_quote(NEW."size"));
       END;
CREATE TRIGGER hook_size_order_is_remembered AFTER UPDATE OF "size_order" ON hook
         WHEN NEW."size_order" IS NOT OLD."size_order" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'hook', NEW.item_id, 'size_order',
                   json_quote(OLD."size_order"), json_quote(NEW."size_order"));
       END;
CREATE TRIGGER hook_end_is_remembered AFTER UPDATE OF "end" ON hook
         WHEN NEW."end" IS NOT OLD."end" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'hook', NEW.item_id, 'end',
                   json_quote(OLD."end"), json_quote(NEW."end"));
       END;
CREATE TRIGGER hook_eye_is_remembered AFTER UPDATE OF "eye" ON hook
         WHEN NEW."eye" IS NOT OLD."eye" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'hook', NEW.item_id, 'eye',
                   json_quote(OLD."eye"), json_quote(NEW."eye"));
       END;
CREATE TRIGGER hook_barb_is_remembered AFTER UPDATE OF "barb" ON hook
         WHEN NEW."barb" IS NOT OLD."barb" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'hook', NEW.item_id, 'barb',
                   json_quote(OLD."barb"), json_quote(NEW."barb"));
       END;
CREATE TRIGGER hook_wire_is_remembered AFTER UPDATE OF "wire" ON hook
         WHEN NEW."wire" IS NOT OLD."wire" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'hook', NEW.item_id, 'wire',
                   json_quote(OLD."wire"), json_quote(NEW."wire"));
       END;
CREATE TRIGGER hook_bend_is_remembered AFTER UPDATE OF "bend" ON hook
         WHEN NEW."bend" IS NOT OLD."bend" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'hook', NEW.item_id, 'bend',
                   json_quote(OLD."bend"), json_quote(NEW."bend"));
       END;
CREATE TRIGGER hook_colour_is_remembered AFTER UPDATE OF "colour" ON hook
         WHEN NEW."colour" IS NOT OLD."colour" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'hook', NEW.item_id, 'colour',
                   json_quote(OLD."colour"), json_quote(NEW."colour"));
       END;
CREATE TRIGGER hooklength_size_is_remembered AFTER UPDATE OF "size" ON hooklength
         WHEN NEW."size" IS NOT OLD."size" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'hooklength', NEW.item_id, 'size',
                   json_quote(OLD."size"), json_quote(NEW."size"));
       END;
CREATE TRIGGER hooklength_size_order_is_remembered AFTER UPDATE OF "size_order" ON hooklength
         WHEN NEW."size_order" IS NOT OLD."size_order" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'hooklength', NEW.item_id, 'size_order',
                   json_quote(OLD."size_order"), json_quote(NEW."size_order"));
       END;
CREATE TRIGGER hooklength_end_is_remembered AFTER UPDATE OF "end" ON hooklength
         WHEN NEW."end" IS NOT OLD."end" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'hooklength', NEW.item_id, 'end',
                   json_quote(OLD."end"), json_quote(NEW."end"));
       END;
CREATE TRIGGER hooklength_eye_is_remembered AFTER UPDATE OF "eye" ON hooklength
         WHEN NEW."eye" IS NOT OLD."eye" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'hooklength', NEW.item_id, 'eye',
                   json_quote(OLD."eye"), json_quote(NEW."eye"));
       END;
CREATE TRIGGER hooklength_barb_is_remembered AFTER UPDATE OF "barb" ON hooklength
         WHEN NEW."barb" IS NOT OLD."barb" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'hooklength', NEW.item_id, 'barb',
                   json_quote(OLD."barb"), json_quote(NEW."barb"));
       END;
CREATE TRIGGER hooklength_wire_is_remembered AFTER UPDATE OF "wire" ON hooklength
         WHEN NEW."wire" IS NOT OLD."wire" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'hooklength', NEW.item_id, 'wire',
                   json_quote(OLD."wire"), json_quote(NEW."wire"));
       END;
CREATE TRIGGER hooklength_bend_is_remembered AFTER UPDATE OF "bend" ON hooklength
         WHEN NEW."bend" IS NOT OLD."bend" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'hooklength', NEW.item_id, 'bend',
                   json_quote(OLD."bend"), json_quote(NEW."bend"));
       END;
CREATE TRIGGER hooklength_colour_is_remembered AFTER UPDATE OF "colour" ON hooklength
         WHEN NEW."colour" IS NOT OLD."colour" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'hooklength', NEW.item_id, 'colour',
                   json_quote(OLD."colour"), json_quote(NEW."colour"));
       END;
CREATE TRIGGER hooklength_material_is_remembered AFTER UPDATE OF "material" ON hooklength
         WHEN NEW."material" IS NOT OLD."material" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'hooklength', NEW.item_id, 'material',
                   json_quote(OLD."material"), json_quote(NEW."material"));
       END;
CREATE TRIGGER hooklength_diameter_mm_is_remembered AFTER UPDATE OF "diameter_mm" ON hooklength
         WHEN NEW."diameter_mm" IS NOT OLD."diameter_mm" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'hooklength', NEW.item_id, 'diameter_mm',
                   json_quote(OLD."diameter_mm"), json_quote(NEW."diameter_mm"));
       END;
CREATE TRIGGER hooklength_diameter_said_is_remembered AFTER UPDATE OF "diameter_said" ON hooklength
         WHEN NEW."diameter_said" IS NOT OLD."diameter_said" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'hooklength', NEW.item_id, 'diameter_said',
                   json_quote(OLD."diameter_said"), json_quote(NEW."diameter_said"));
       END;
CREATE TRIGGER hooklength_breaks_at_kg_is_remembered AFTER UPDATE OF "breaks_at_kg" ON hooklength
         WHEN NEW."breaks_at_kg" IS NOT OLD."breaks_at_kg" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'hooklength', NEW.item_id, 'breaks_at_kg',
                   json_quote(OLD."breaks_at_kg"), json_quote(NEW."breaks_at_kg"));
       END;
CREATE TRIGGER hooklength_strain_said_is_remembered AFTER UPDATE OF "strain_said" ON hooklength
         WHEN NEW."strain_said" IS NOT OLD."strain_said" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'hooklength', NEW.item_id, 'strain_said',
                   json_quote(OLD."strain_said"), json_quote(NEW."strain_said"));
       END;
CREATE TRIGGER hooklength_length_mm_is_remembered AFTER UPDATE OF "length_mm" ON hooklength
         WHEN NEW."length_mm" IS NOT OLD."length_mm" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'hooklength', NEW.item_id, 'length_mm',
                   json_quote(OLD."length_mm"), json_quote(NEW."length_mm"));
       END;
CREATE TRIGGER hooklength_length_said_is_remembered AFTER UPDATE OF "length_said" ON hooklength
         WHEN NEW."length_said" IS NOT OLD."length_said" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'hooklength', NEW.item_id, 'length_said',
                   json_quote(OLD."length_said"), json_quote(NEW."length_said"));
       END;
CREATE TRIGGER hooklength_bait_is_remembered AFTER UPDATE OF "bait" ON hooklength
         WHEN NEW."bait" IS NOT OLD."bait" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'hooklength', NEW.item_id, 'bait',
                   json_quote(OLD."bait"), json_quote(NEW."bait"));
       END;
CREATE TRIGGER float_shape_is_remembered AFTER UPDATE OF "shape" ON float
         WHEN NEW."shape" IS NOT OLD."shape" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'float', NEW.item_id, 'shape',
                   json_quote(OLD."shape"), json_quote(NEW."shape"));
       END;
CREATE TRIGGER float_mark_is_remembered AFTER UPDATE OF "mark" ON float
         WHEN NEW."mark" IS NOT OLD."mark" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'float', NEW.item_id, 'mark',
                   json_quote(OLD."mark"), json_quote(NEW."mark"));
       END;
CREATE TRIGGER float_capacity_g_is_remembered AFTER UPDATE OF "capacity_g" ON float
         WHEN NEW."capacity_g" IS NOT OLD."capacity_g" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'float', NEW.item_id, 'capacity_g',
                   json_quote(OLD."capacity_g"), json_quote(NEW."capacity_g"));
       END;
CREATE TRIGGER float_carries_said_is_remembered AFTER UPDATE OF "carries_said" ON float
         WHEN NEW."carries_said" IS NOT OLD."carries_said" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'float', NEW.item_id, 'carries_said',
                   json_quote(OLD."carries_said"), json_quote(NEW."carries_said"));
       END;
CREATE TRIGGER float_body_is_remembered AFTER UPDATE OF "body" ON float
         WHEN NEW."body" IS NOT OLD."body" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'float', NEW.item_id, 'body',
                   json_quote(OLD."body"), json_quote(NEW."body"));
       END;
CREATE TRIGGER float_material_is_remembered AFTER UPDATE OF "material" ON float
         WHEN NEW."material" IS NOT OLD."material" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'float', NEW.item_id, 'material',
                   json_quote(OLD."material"), json_quote(NEW."material"));
       END;
CREATE TRIGGER float_stem_is_remembered AFTER UPDATE OF "stem" ON float
         WHEN NEW."stem" IS NOT OLD."stem" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'float', NEW.item_id, 'stem',
                   json_quote(OLD."stem"), json_quote(NEW."stem"));
       END;
CREATE TRIGGER float_tip_is_remembered AFTER UPDATE OF "tip" ON float
         WHEN NEW."tip" IS NOT OLD."tip" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'float', NEW.item_id, 'tip',
                   json_quote(OLD."tip"), json_quote(NEW."tip"));
       END;
CREATE TRIGGER float_colour_is_remembered AFTER UPDATE OF "colour" ON float
         WHEN NEW."colour" IS NOT OLD."colour" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'float', NEW.item_id, 'colour',
                   json_quote(OLD."colour"), json_quote(NEW."colour"));
       END;
CREATE TRIGGER float_tip_diameter_mm_is_remembered AFTER UPDATE OF "tip_diameter_mm" ON float
         WHEN NEW."tip_diameter_mm" IS NOT OLD."tip_diameter_mm" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'float', NEW.item_id, 'tip_diameter_mm',
                   json_quote(OLD."tip_diameter_mm"), json_quote(NEW."tip_diameter_mm"));
       END;
CREATE TRIGGER float_tip_diameter_said_is_remembered AFTER UPDATE OF "tip_diameter_said" ON float
         WHEN NEW."tip_diameter_said" IS NOT OLD."tip_diameter_said" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'float', NEW.item_id, 'tip_diameter_said',
                   json_quote(OLD."tip_diameter_said"), json_quote(NEW."tip_diameter_said"));
       END;
CREATE TRIGGER float_tip_length_mm_is_remembered AFTER UPDATE OF "tip_length_mm" ON float
         WHEN NEW."tip_length_mm" IS NOT OLD."tip_length_mm" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'float', NEW.item_id, 'tip_length_mm',
                   json_quote(OLD."tip_length_mm"), json_quote(NEW."tip_length_mm"));
       END;
CREATE TRIGGER float_tip_length_said_is_remembered AFTER UPDATE OF "tip_length_said" ON float
         WHEN NEW."tip_length_said" IS NOT OLD."tip_length_said" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'float', NEW.item_id, 'tip_length_said',
                   json_quote(OLD."tip_length_said"), json_quote(NEW."tip_length_said"));
       END;
CREATE TRIGGER weight_form_is_remembered AFTER UPDATE OF "form" ON weight
         WHEN NEW."form" IS NOT OLD."form" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'weight', NEW.item_id, 'form',
                   json_quote(OLD."form"), json_quote(NEW."form"));
       END;
CREATE TRIGGER weight_mark_is_remembered AFTER UPDATE OF "mark" ON weight
         WHEN NEW."mark" IS NOT OLD."mark" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'weight', NEW.item_id, 'mark',
                   json_quote(OLD."mark"), json_quote(NEW."mark"));
       END;
CREATE TRIGGER weight_mass_g_is_remembered AFTER UPDATE OF "mass_g" ON weight
         WHEN NEW."mass_g" IS NOT OLD."mass_g" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'weight', NEW.item_id, 'mass_g',
                   json_quote(OLD."mass_g"), json_quote(NEW."mass_g"));
       END;
CREATE TRIGGER weight_material_is_remembered AFTER UPDATE OF "material" ON weight
         WHEN NEW."material" IS NOT OLD."material" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'weight', NEW.item_id, 'material',
                   json_quote(OLD."material"), json_quote(NEW."material"));
       END;
CREATE TRIGGER feeder_shape_is_remembered AFTER UPDATE OF "shape" ON feeder
         WHEN NEW."shape" IS NOT OLD."shape" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'feeder', NEW.item_id, 'shape',
                   json_quote(OLD."shape"), json_quote(NEW."shape"));
       END;
CREATE TRIGGER feeder_fitting_is_remembered AFTER UPDATE OF "fitting" ON feeder
         WHEN NEW."fitting" IS NOT OLD."fitting" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'feeder', NEW.item_id, 'fitting',
                   json_quote(OLD."fitting"), json_quote(NEW."fitting"));
       END;
CREATE TRIGGER feeder_mass_g_is_remembered AFTER UPDATE OF "mass_g" ON feeder
         WHEN NEW."mass_g" IS NOT OLD."mass_g" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'feeder', NEW.item_id, 'mass_g',
                   json_quote(OLD."mass_g"), json_quote(NEW."mass_g"));
       END;
CREATE TRIGGER feeder_mass_said_is_remembered AFTER UPDATE OF "mass_said" ON feeder
         WHEN NEW."mass_said" IS NOT OLD."mass_said" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'feeder', NEW.item_id, 'mass_said',
                   json_quote(OLD."mass_said"), json_quote(NEW."mass_said"));
       END;
CREATE TRIGGER feeder_size_is_remembered AFTER UPDATE OF "size" ON feeder
         WHEN NEW."size" IS NOT OLD."size" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'feeder', NEW.item_id, 'size',
                   json_quote(OLD."size"), json_quote(NEW."size"));
       END;
CREATE TRIGGER feeder_volume_ml_is_remembered AFTER UPDATE OF "volume_ml" ON feeder
         WHEN NEW."volume_ml" IS NOT OLD."volume_ml" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'feeder', NEW.item_id, 'volume_ml',
                   json_quote(OLD."volume_ml"), json_quote(NEW."volume_ml"));
       END;
CREATE TRIGGER feeder_volume_said_is_remembered AFTER UPDATE OF "volume_said" ON feeder
         WHEN NEW."volume_said" IS NOT OLD."volume_said" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'feeder', NEW.item_id, 'volume_said',
                   json_quote(OLD."volume_said"), json_quote(NEW."volume_said"));
       END;
CREATE TRIGGER part_sort_is_remembered AFTER UPDATE OF "sort" ON part
         WHEN NEW."sort" IS NOT OLD."sort" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'part', NEW.item_id, 'sort',
                   json_quote(OLD."sort"), json_quote(NEW."sort"));
       END;
CREATE TRIGGER part_size_is_remembered AFTER UPDATE OF "size" ON part
         WHEN NEW."size" IS NOT OLD."size" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'part', NEW.item_id, 'size',
                   json_quote(OLD."size"), json_quote(NEW."size"));
       END;
CREATE TRIGGER part_breaks_at_kg_is_remembered AFTER UPDATE OF "breaks_at_kg" ON part
         WHEN NEW."breaks_at_kg" IS NOT OLD."breaks_at_kg" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'part', NEW.item_id, 'breaks_at_kg',
                   json_quote(OLD."breaks_at_kg"), json_quote(NEW."breaks_at_kg"));
       END;
CREATE TRIGGER part_strain_said_is_remembered AFTER UPDATE OF "strain_said" ON part
         WHEN NEW."strain_said" IS NOT OLD."strain_said" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'part', NEW.item_id, 'strain_said',
                   json_quote(OLD."strain_said"), json_quote(NEW."strain_said"));
       END;
CREATE TRIGGER elastic_grade_is_remembered AFTER UPDATE OF "grade" ON elastic
         WHEN NEW."grade" IS NOT OLD."grade" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'elastic', NEW.item_id, 'grade',
                   json_quote(OLD."grade"), json_quote(NEW."grade"));
       END;
CREATE TRIGGER elastic_grade_to_is_remembered AFTER UPDATE OF "grade_to" ON elastic
         WHEN NEW."grade_to" IS NOT OLD."grade_to" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'elastic', NEW.item_id, 'grade_to',
                   json_quote(OLD."grade_to"), json_quote(NEW."grade_to"));
       END;
CREATE TRIGGER elastic_core_is_remembered AFTER UPDATE OF "core" ON elastic
         WHEN NEW."core" IS NOT OLD."core" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'elastic', NEW.item_id, 'core',
                   json_quote(OLD."core"), json_quote(NEW."core"));
       END;
CREATE TRIGGER elastic_colour_is_remembered AFTER UPDATE OF "colour" ON elastic
         WHEN NEW."colour" IS NOT OLD."colour" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'elastic', NEW.item_id, 'colour',
                   json_quote(OLD."colour"), json_quote(NEW."colour"));
       END;
CREATE TRIGGER winder_length_mm_is_remembered AFTER UPDATE OF "length_mm" ON winder
         WHEN NEW."length_mm" IS NOT OLD."length_mm" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'winder', NEW.item_id, 'length_mm',
                   json_quote(OLD."length_mm"), json_quote(NEW."length_mm"));
       END;
CREATE TRIGGER winder_length_said_is_remembered AFTER UPDATE OF "length_said" ON winder
         WHEN NEW."length_said" IS NOT OLD."length_said" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'winder', NEW.item_id, 'length_said',
                   json_quote(OLD."length_said"), json_quote(NEW."length_said"));
       END;
CREATE TRIGGER winder_width_mm_is_remembered AFTER UPDATE OF "width_mm" ON winder
         WHEN NEW."width_mm" IS NOT OLD."width_mm" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'winder', NEW.item_id, 'width_mm',
                   json_quote(OLD."width_mm"), json_quote(NEW."width_mm"));
       END;
CREATE TRIGGER winder_width_said_is_remembered AFTER UPDATE OF "width_said" ON winder
         WHEN NEW."width_said" IS NOT OLD."width_said" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'winder', NEW.item_id, 'width_said',
                   json_quote(OLD."width_said"), json_quote(NEW."width_said"));
       END;
CREATE TRIGGER winder_colour_is_remembered AFTER UPDATE OF "colour" ON winder
         WHEN NEW."colour" IS NOT OLD."colour" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'winder', NEW.item_id, 'colour',
                   json_quote(OLD."colour"), json_quote(NEW."colour"));
       END;
CREATE TRIGGER tied_labelled_on_is_remembered AFTER UPDATE OF "labelled_on" ON tied
         WHEN NEW."labelled_on" IS NOT OLD."labelled_on" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'tied', NEW.id, 'labelled_on',
                   json_quote(OLD."labelled_on"), json_quote(NEW."labelled_on"));
       END;
CREATE TRIGGER batch_left_is_remembered AFTER UPDATE OF "left" ON batch
         WHEN NEW."left" IS NOT OLD."left" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'batch', NEW.id, 'left',
                   json_quote(OLD."left"), json_quote(NEW."left"));
       END;
CREATE TRIGGER batch_labelled_on_is_remembered AFTER UPDATE OF "labelled_on" ON batch
         WHEN NEW."labelled_on" IS NOT OLD."labelled_on" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'batch', NEW.id, 'labelled_on',
                   json_quote(OLD."labelled_on"), json_quote(NEW."labelled_on"));
       END;
CREATE TRIGGER reel_name_is_remembered AFTER UPDATE OF "name" ON reel
         WHEN NEW."name" IS NOT OLD."name" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'reel', NEW.id, 'name',
                   json_quote(OLD."name"), json_quote(NEW."name"));
       END;
CREATE TRIGGER reel_item_id_is_remembered AFTER UPDATE OF "item_id" ON reel
         WHEN NEW."item_id" IS NOT OLD."item_id" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'reel', NEW.id, 'item_id',
                   json_quote(OLD."item_id"), json_quote(NEW."item_id"));
       END;
CREATE TRIGGER reel_loaded_mm_is_remembered AFTER UPDATE OF "loaded_mm" ON reel
         WHEN NEW."loaded_mm" IS NOT OLD."loaded_mm" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'reel', NEW.id, 'loaded_mm',
                   json_quote(OLD."loaded_mm"), json_quote(NEW."loaded_mm"));
       END;
CREATE TRIGGER reel_loaded_on_is_remembered AFTER UPDATE OF "loaded_on" ON reel
         WHEN NEW."loaded_on" IS NOT OLD."loaded_on" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'reel', NEW.id, 'loaded_on',
                   json_quote(OLD."loaded_on"), json_quote(NEW."loaded_on"));
       END;
CREATE TRIGGER reel_backing_is_remembered AFTER UPDATE OF "backing" ON reel
         WHEN NEW."backing" IS NOT OLD."backing" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'reel', NEW.id, 'backing',
                   json_quote(OLD."backing"), json_quote(NEW."backing"));
       END;
CREATE TRIGGER reel_retired_is_remembered AFTER UPDATE OF "retired" ON reel
         WHEN NEW."retired" IS NOT OLD."retired" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'reel', NEW.id, 'retired',
                   json_quote(OLD."retired"), json_quote(NEW."retired"));
       END;
CREATE TRIGGER reel_withdrawn_is_remembered AFTER UPDATE OF "withdrawn" ON reel
         WHEN NEW."withdrawn" IS NOT OLD."withdrawn" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'reel', NEW.id, 'withdrawn',
                   json_quote(OLD."withdrawn"), json_quote(NEW."withdrawn"));
       END;
CREATE TRIGGER setting_said_is_remembered AFTER UPDATE OF "said" ON setting
         WHEN NEW."said" IS NOT OLD."said" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'setting', NEW.name, 'said',
                   json_quote(OLD."said"), json_quote(NEW."said"));
       END;
CREATE TRIGGER sheetinuse_next_free_is_remembered AFTER UPDATE OF "next_free" ON sheetinuse
         WHEN NEW."next_free" IS NOT OLD."next_free" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'sheetinuse', NEW.paper, 'next_free',
                   json_quote(OLD."next_free"), json_quote(NEW."next_free"));
       END;
CREATE TRIGGER identity_stays BEFORE UPDATE OF id, box, changes ON identity
           WHEN NEW.id <> OLD.id OR NEW.changes < OLD.changes
           OR (NEW.box <> OLD.box AND EXISTS (SELECT 1 FROM action)) BEGIN SELECT RAISE(ABORT, 'a box stays the same box'); END;
CREATE TRIGGER identity_is_never_deleted BEFORE DELETE ON identity BEGIN SELECT RAISE(ABORT, 'boxes are never deleted'); END;
CREATE TRIGGER identity_is_never_replaced BEFORE INSERT ON identity WHEN EXISTS (SELECT 1 FROM identity WHERE id = NEW.id) BEGIN SELECT RAISE(ABORT, 'boxes are never replaced'); END;
CREATE TRIGGER action_insert_is_counted AFTER INSERT ON action BEGIN
         UPDATE identity SET changes = changes + 1;
         INSERT INTO aswritten (table_name, row_key, checks)
           VALUES ('action', NEW."id", checks_of(NEW."id", NEW."what", NEW."on", NEW."written_at", NEW."undoes", NEW."redoes", NEW."key"));
       END;
CREATE TRIGGER action_update_is_counted AFTER UPDATE ON action BEGIN
         UPDATE identity SET changes = changes + 1;
         UPDATE aswritten SET checks = checks_after(checks, OLD."id", OLD."what", OLD."on", OLD."written_at", OLD."undoes", OLD."redoes", OLD."key", NEW."id", NEW."what", NEW."on", NEW."written_at", NEW."undoes", NEW."redoes", NEW."key")
           WHERE table_name = 'action' AND row_key = NEW."id";
       END;
CREATE TRIGGER change_insert_is_counted AFTER INSERT ON change BEGIN
         UPDATE identity SET changes = changes + 1;
         INSERT INTO aswritten (table_name, row_key, checks)
           VALUES ('change', NEW."id", checks_of(NEW."id", NEW."action_id", NEW."table_name", NEW."row_key", NEW."column_name", NEW."was", NEW."became"));
       END;
CREATE TRIGGER item_insert_is_counted AFTER INSERT ON item BEGIN
         UPDATE identity SET changes = changes + 1;
         INSERT INTO aswritten (table_name, row_key, checks)
           VALUES ('item', NEW."id", checks_of(NEW."id", NEW."kind", NEW."words", NEW."name", NEW."place", NEW."pack_size", NEW."pack_price_cents", NEW."minimum", NEW."on_hand", NEW."last_movement", NEW."added_on", NEW."withdrawn", NEW."retired", NEW."level", NEW."note", NEW."pack_said"));
       END;
CREATE TRIGGER item_update_is_counted AFTER UPDATE ON item BEGIN
         UPDATE identity SET changes = changes + 1;
         UPDATE aswritten SET checks = checks_after(checks, OLD."id", OLD."kind", OLD."words", OLD."name", OLD."place", OLD."pack_size", OLD."pack_price_cents", OLD."minimum", OLD."on_hand", OLD."last_movement", OLD."added_on", OLD."withdrawn", OLD."retired", OLD."level", OLD."note", OLD."pack_said", NEW."id", NEW."kind", NEW."words", NEW."name", NEW."place", NEW."pack_size", NEW."pack_price_cents", NEW."minimum", NEW."on_hand", NEW."last_movement", NEW."added_on", NEW."withdrawn", NEW."retired", NEW."level", NEW."note", NEW."pack_said")
           WHERE table_name = 'item' AND row_key = NEW."id";
       END;
CREATE TRIGGER line_insert_is_counted AFTER INSERT ON line BEGIN
         UPDATE identity SET changes = changes + 1;
         INSERT INTO aswritten (table_name, row_key, checks)
           VALUES ('line', NEW."item_id", checks_of(NEW."item_id", NEW."material", NEW."sort", NEW."diameter_mm", NEW."diameter_said", NEW."breaks_at_kg", NEW."strain_said", NEW."colour", NEW."maker"));
       END;
CREATE TRIGGER line_update_is_counted AFTER UPDATE ON line BEGIN
         UPDATE identity SET changes = changes + 1;
         UPDATE aswritten SET checks = checks_after(checks, OLD."item_id", OLD."material", OLD."sort", OLD."diameter_mm", OLD."diameter_said", OLD."breaks_at_kg", OLD."strain_said", OLD."colour", OLD."maker", NEW."item_id", NEW."material", NEW."sort", NEW."diameter_mm", NEW."diameter_said", NEW."breaks_at_kg", NEW."strain_said", NEW."colour", NEW."maker")
           WHERE table_name = 'line' AND row_key = NEW."item_id";
       END;
CREATE TRIGGER hook_insert_is_counted AFTER INSERT ON hook BEGIN
         UPDATE identity SET changes = changes + 1;
         INSERT INTO aswritten (table_name, row_key, checks)
           VALUES ('hook', NEW."item_id", checks_of(NEW."item_id", NEW."size", NEW."size_order", NEW."end", NEW."eye", NEW."barb", NEW."wire", NEW."bend", NEW."colour"));
       END;
CREATE TRIGGER hook_update_is_counted AFTER UPDATE ON hook BEGIN
         UPDATE identity SET changes = changes + 1;
         UPDATE aswritten SET checks = checks_after(checks, OLD."item_id", OLD."size", OLD."size_order", OLD."end", OLD."eye", OLD."barb", OLD."wire", OLD."bend", OLD."colour", NEW."item_id", NEW."size", NEW."size_order", NEW."end", NEW."eye", NEW."barb", NEW."wire", NEW."bend", NEW."colour")
           WHERE table_name = 'hook' AND row_key = NEW."item_id";
       END;
CREATE TRIGGER hooklength_insert_is_counted AFTER INSERT ON hooklength BEGIN
         UPDATE identity SET changes = changes + 1;
         INSERT INTO aswritten (table_name, row_key, checks)
           VALUES ('hooklength', NEW."item_id", checks_of(NEW."item_id", NEW."size", NEW."size_order", NEW."end", NEW."eye", NEW."barb", NEW."wire", NEW."bend", NEW."colour", NEW."material", NEW."diameter_mm", NEW."diameter_said", NEW."breaks_at_kg", NEW."strain_said", NEW."length_mm", NEW."length_said", NEW."bait"));
       END;
CREATE TRIGGER hooklength_update_is_counted AFTER UPDATE ON hooklength BEGIN
         UPDATE identity SET changes = changes + 1;
         UPDATE aswritten SET checks = checks_after(checks, OLD."item_id", OLD."size", OLD."size_order", OLD."end", OLD."eye", OLD."barb", OLD."wire", OLD."bend", OLD."colour", OLD."material", OLD."diameter_mm", OLD."diameter_said", OLD."breaks_at_kg", OLD."strain_said", OLD."length_mm", OLD."length_said", OLD."bait", NEW."item_id", NEW."size", NEW."size_order", NEW."end", NEW."eye", NEW."barb", NEW."wire", NEW."bend", NEW."colour", NEW."material", NEW."diameter_mm", NEW."diameter_said", NEW."breaks_at_kg", NEW."strain_said", NEW."length_mm", NEW."length_said", NEW."bait")
           WHERE table_name = 'hooklength' AND row_key = NEW."item_id";
       END;
CREATE TRIGGER float_insert_is_counted AFTER INSERT ON float BEGIN
         UPDATE identity SET changes = changes + 1;
         INSERT INTO aswritten (table_name, row_key, checks)
           VALUES ('float', NEW."item_id", checks_of(NEW."item_id", NEW."shape", NEW."mark", NEW."capacity_g", NEW."carries_said", NEW."body", NEW."material", NEW."stem", NEW."tip", NEW."tip_diameter_mm", NEW."tip_diameter_said", NEW."tip_length_mm", NEW."tip_length_said", NEW."colour"));
       END;
CREATE TRIGGER float_update_is_counted AFTER UPDATE ON float BEGIN
         UPDATE identity SET changes = changes + 1;
         UPDATE aswritten SET checks = checks_after(checks, OLD."item_id", OLD."shape", OLD."mark", OLD."capacity_g", OLD."carries_said", OLD."body", OLD."material", OLD."stem", OLD."tip", OLD."tip_diameter_mm", OLD."tip_diameter_said", OLD."tip_length_mm", OLD."tip_length_said", OLD."colour", NEW."item_id", NEW."shape", NEW."mark", NEW."capacity_g", NEW."carries_said", NEW."body", NEW."material", NEW."stem", NEW."tip", NEW."tip_diameter_mm", NEW."tip_diameter_said", NEW."tip_length_mm", NEW."tip_length_said", NEW."colour")
           WHERE table_name = 'float' AND row_key = NEW."item_id";
       END;
CREATE TRIGGER weight_insert_is_counted AFTER INSERT ON weight BEGIN
         UPDATE identity SET changes = changes + 1;
         INSERT INTO aswritten (table_name, row_key, checks)
           VALUES ('weight', NEW."item_id", checks_of(NEW."item_id", NEW."form", NEW."mark", NEW."mass_g", NEW."material"));
       END;
CREATE TRIGGER weight_update_is_counted AFTER UPDATE ON weight BEGIN
         UPDATE identity SET changes = changes + 1;
         UPDATE aswritten SET checks = checks_after(checks, OLD."item_id", OLD."form", OLD."mark", OLD."mass_g", OLD."material", NEW."item_id", NEW."form", NEW."mark", NEW."mass_g", NEW."material")
           WHERE table_name = 'weight' AND row_key = NEW."item_id";
       END;
CREATE TRIGGER feeder_insert_is_counted AFTER INSERT ON feeder BEGIN
         UPDATE identity SET changes = changes + 1;
         INSERT INTO aswritten (table_name, row_key, checks)
           VALUES ('feeder', NEW."item_id", checks_of(NEW."item_id", NEW."shape", NEW."fitting", NEW."mass_g", NEW."mass_said", NEW."size", NEW."volume_ml", NEW."volume_said"));
       END;
CREATE TRIGGER feeder_update_is_counted AFTER UPDATE ON feeder BEGIN
         UPDATE identity SET changes = changes + 1;
         UPDATE aswritten SET checks = checks_after(checks, OLD."item_id", OLD."shape", OLD."fitting", OLD."mass_g", OLD."mass_said", OLD."size", OLD."volume_ml", OLD."volume_said", NEW."item_id", NEW."shape", NEW."fitting", NEW."mass_g", NEW."mass_said", NEW."size", NEW."volume_ml", NEW."volume_said")
           WHERE table_name = 'feeder' AND row_key = NEW."item_id";
       END;
CREATE TRIGGER part_insert_is_counted AFTER INSERT ON part BEGIN
         UPDATE identity SET changes = changes + 1;
         INSERT INTO aswritten (table_name, row_key, checks)
           VALUES ('part', NEW."item_id", checks_of(NEW."item_id", NEW."sort", NEW."size", NEW."breaks_at_kg", NEW."strain_said"));
       END;
CREATE TRIGGER part_update_is_counted AFTER UPDATE ON part BEGIN
         UPDATE identity SET changes = changes + 1;
         UPDATE aswritten SET checks = checks_after(checks, OLD."item_id", OLD."sort", OLD."size", OLD."breaks_at_kg", OLD."strain_said", NEW."item_id", NEW."sort", NEW."size", NEW."breaks_at_kg", NEW."strain_said")
           WHERE table_name = 'part' AND row_key = NEW."item_id";
       END;
CREATE TRIGGER elastic_insert_is_counted AFTER INSERT ON elastic BEGIN
         UPDATE identity SET changes = changes + 1;
         INSERT INTO aswritten (table_name, row_key, checks)
           VALUES ('elastic', NEW."item_id", checks_of(NEW."item_id", NEW."grade", NEW."grade_to", NEW."core", NEW."colour"));
       END;
CREATE TRIGGER elastic_update_is_counted AFTER UPDATE ON elastic BEGIN
         UPDATE identity SET changes = changes + 1;
         UPDATE aswritten SET checks = checks_after(checks, OLD."item_id", OLD."grade", OLD."grade_to", OLD."core", OLD."colour", NEW."item_id", NEW."grade", NEW."grade_to", NEW."core", NEW."colour")
           WHERE table_name = 'elastic' AND row_key = NEW."item_id";
       END;
CREATE TRIGGER winder_insert_is_counted AFTER INSERT ON winder BEGIN
         UPDATE identity SET changes = changes + 1;
         INSERT INTO aswritten (table_name, row_key, checks)
           VALUES ('winder', NEW."item_id", checks_of(NEW."item_id", NEW."length_mm", NEW."length_said", NEW."width_mm", NEW."width_said", NEW."colour"));
       END;
CREATE TRIGGER winder_update_is_counted AFTER UPDATE ON winder BEGIN
         UPDATE identity SET changes = changes + 1;
         UPDATE aswritten SET checks = checks_after(checks, OLD."item_id", OLD."length_mm", OLD."length_said", OLD."width_mm", OLD."width_said", OLD."colour", NEW."item_id", NEW."length_mm", NEW."length_said", NEW."width_mm", NEW."width_said", NEW."colour")
           WHERE table_name = 'winder' AND row_key = NEW."item_id";
       END;
CREATE TRIGGER movement_insert_is_counted AFTER INSERT ON movement BEGIN
         UPDATE identity SET changes = changes + 1;
         INSERT INTO aswritten (table_name, row_key, checks)
           VALUES ('movement', NEW."id", checks_of(NEW."id", NEW."item_id", NEW."action_id", NEW."amount", NEW."why", NEW."on", NEW."reason"));
       END;
CREATE TRIGGER measurement_insert_is_counted AFTER INSERT ON measurement BEGIN
         UPDATE identity SET changes = changes + 1;
         INSERT INTO aswritten (table_name, row_key, checks)
           VALUES ('measurement', NEW."id", checks_of(NEW."id", NEW."item_id", NEW."what", NEW."breaks_at_kg", NEW."mass_g", NEW."knot", NEW."count", NEW."takes_back", NEW."on", NEW."action_id", NEW."bait", NEW."distance_mm", NEW."seconds", NEW."water_c"));
       END;
CREATE TRIGGER tied_insert_is_counted AFTER INSERT ON tied BEGIN
         UPDATE identity SET changes = changes + 1;
         INSERT INTO aswritten (table_name, row_key, checks)
           VALUES ('tied', NEW."id", checks_of(NEW."id", NEW."code", NEW."code_number", NEW."recipe", NEW."kind", NEW."state", NEW."tied_on", NEW."labelled_on", NEW."forced_because", NEW."snapshot", NEW."action_id"));
       END;
CREATE TRIGGER tied_update_is_counted AFTER UPDATE ON tied BEGIN
         UPDATE identity SET changes = changes + 1;
         UPDATE aswritten SET checks = checks_after(checks, OLD."id", OLD."code", OLD."code_number", OLD."recipe", OLD."kind", OLD."state", OLD."tied_on", OLD."labelled_on", OLD."forced_because", OLD."snapshot", OLD."action_id", NEW."id", NEW."code", NEW."code_number", NEW."recipe", NEW."kind", NEW."state", NEW."tied_on", NEW."labelled_on", NEW."forced_because", NEW."snapshot", NEW."action_id")
           WHERE table_name = 'tied' AND row_key = NEW."id";
       END;
CREATE TRIGGER tieduse_insert_is_counted AFTER INSERT ON tieduse BEGIN
         UPDATE identity SET changes = changes + 1;
         INSERT INTO aswritten (table_name, row_key, checks)
           VALUES ('tieduse', NEW."id", checks_of(NEW."id", NEW."tied_id", NEW."item_id", NEW."part", NEW."amount", NEW."comes_back"));
       END;
CREATE TRIGGER batch_insert_is_counted AFTER INSERT ON batch BEGIN
         UPDATE identity SET changes = changes + 1;
         INSERT INTO aswritten (table_name, row_key, checks)
           VALUES ('batch', NEW."id", checks_of(NEW."id", NEW."code", NEW."code_number", NEW."item_id", NEW."action_id", NEW."recipe", NEW."tied_on", NEW."tied", NEW."left", NEW."labelled_on", NEW."forced_because", NEW."snapshot"));
       END;
CREATE TRIGGER batch_update_is_counted AFTER UPDATE ON batch BEGIN
         UPDATE identity SET changes = changes + 1;
         UPDATE aswritten SET checks = checks_after(checks, OLD."id", OLD."code", OLD."code_number", OLD."item_id", OLD."action_id", OLD."recipe", OLD."tied_on", OLD."tied", OLD."left", OLD."labelled_on", OLD."forced_because", OLD."snapshot", NEW."id", NEW."code", NEW."code_number", NEW."item_id", NEW."action_id", NEW."recipe", NEW."tied_on", NEW."tied", NEW."left", NEW."labelled_on", NEW."forced_because", NEW."snapshot")
           WHERE table_name = 'batch' AND row_key = NEW."id";
       END;
CREATE TRIGGER batchuse_insert_is_counted AFTER INSERT ON batchuse BEGIN
         UPDATE identity SET changes = changes + 1;
         INSERT INTO aswritten (table_name, row_key, checks)
           VALUES ('batchuse', NEW."id", checks_of(NEW."id", NEW."batch_id", NEW."item_id", NEW."part", NEW."amount"));
       END;
CREATE TRIGGER reel_insert_is_counted AFTER INSERT ON reel BEGIN
         UPDATE identity SET changes = changes + 1;
         INSERT INTO aswritten (table_name, row_key, checks)
           VALUES ('reel', NEW."id", checks_of(NEW."id", NEW."name", NEW."what", NEW."item_id", NEW."loaded_mm", NEW."loaded_on", NEW."backing", NEW."retired", NEW."withdrawn"));
       END;
CREATE TRIGGER reel_update_is_counted AFTER UPDATE ON reel BEGIN
         UPDATE identity SET changes = changes + 1;
         UPDATE aswritten SET checks = checks_after(checks, OLD."id", OLD."name", OLD."what", OLD."item_id", OLD."loaded_mm", OLD."loaded_on", OLD."backing", OLD."retired", OLD."withdrawn", NEW."id", NEW."name", NEW."what", NEW."item_id", NEW."loaded_mm", NEW."loaded_on", NEW."backing", NEW."retired", NEW."withdrawn")
           WHERE table_name = 'reel' AND row_key = NEW."id";
       END;
CREATE TRIGGER setting_insert_is_counted AFTER INSERT ON setting BEGIN
         UPDATE identity SET changes = changes + 1;
         INSERT INTO aswritten (table_name, row_key, checks)
           VALUES ('setting', NEW."name", checks_of(NEW."name", NEW."said"));
       END;
CREATE TRIGGER setting_update_is_counted AFTER UPDATE ON setting BEGIN
         UPDATE identity SET changes = changes + 1;
         UPDATE aswritten SET checks = checks_after(checks, OLD."name", OLD."said", NEW."name", NEW."said")
           WHERE table_name = 'setting' AND row_key = NEW."name";
       END;
CREATE TRIGGER statechange_insert_is_counted AFTER INSERT ON statechange BEGIN
         UPDATE identity SET changes = changes + 1;
         INSERT INTO aswritten (table_name, row_key, checks)
           VALUES ('statechange', NEW."id", checks_of(NEW."id", NEW."tied_id", NEW."action_id", NEW."was", NEW."became"));
       END;
CREATE TRIGGER sheetinuse_insert_is_counted AFTER INSERT ON sheetinuse BEGIN
         UPDATE identity SET changes = changes + 1;
         INSERT INTO aswritten (table_name, row_key, checks)
           VALUES ('sheetinuse', NEW."paper", checks_of(NEW."paper", NEW."next_free"));
       END;
CREATE TRIGGER sheetinuse_update_is_counted AFTER UPDATE ON sheetinuse BEGIN
         UPDATE identity SET changes = changes + 1;
         UPDATE aswritten SET checks = checks_after(checks, OLD."paper", OLD."next_free", NEW."paper", NEW."next_free")
           WHERE table_name = 'sheetinuse' AND row_key = NEW."paper";
       END;
CREATE TRIGGER debrief_insert_is_counted AFTER INSERT ON debrief BEGIN
         UPDATE identity SET changes = changes + 1;
         INSERT INTO aswritten (table_name, row_key, checks)
           VALUES ('debrief', NEW."id", checks_of(NEW."id", NEW."action_id", NEW."match", NEW."venue", NEW."on", NEW."peg", NEW."section", NEW."place", NEW."points", NEW."water_c", NEW."weight_g", NEW."notes", NEW."record", NEW."corrects"));
       END;
CREATE TRIGGER debriefrig_insert_is_counted AFTER INSERT ON debriefrig BEGIN
         UPDATE identity SET changes = changes + 1;
         INSERT INTO aswritten (table_name, row_key, checks)
           VALUES ('debriefrig', NEW."id", checks_of(NEW."id", NEW."debrief_id", NEW."tied_id", NEW."became", NEW."did_well"));
       END;
CREATE TRIGGER identity_insert_is_checked AFTER INSERT ON identity BEGIN
         INSERT INTO aswritten (table_name, row_key, checks)
           VALUES ('identity', NEW."id", checks_of(NEW."id", NEW."box", NEW."stamp"));
       END;
CREATE TRIGGER identity_update_is_checked AFTER UPDATE OF box, stamp ON identity BEGIN
         UPDATE aswritten SET checks = checks_after(checks, OLD."id", OLD."box", OLD."stamp", NEW."id", NEW."box", NEW."stamp")
           WHERE table_name = 'identity' AND row_key = NEW."id";
       END;
COMMIT;
