"""The words that both ends of a link know beforehand: part of the format of links.

Written by tests/core/link_words_maker.py. Never edited once a release has made links with it: without
these very words a link cannot be unpacked.
"""

WORDS = r"""
{"device":","n":1,"kind":"job opened","format":1,"at":"2026-","body":"{\"title\":\"Saloon heate
r fan\",\"sheet\":{\"format\":1,\"id\":\"minibus-saloon-fan\",\"title\":\"Saloon heater fan\",\"
vehicle\":\"Minibus, 24 V\",\"system_volts\":24,\"summary\":\"Three-speed fan under the rear sea
t: fuse, switch on the dash, stepped resistor pack with thermal fuse on the supply side, motor.\
",\"working_amps\":8,\"loads\":[\"M1\"],\"controls\":[{\"part\":\"S1\",\"name\":\"fan switch\",\
"off\":\"0\",\"positions\":[{\"id\":\"0\",\"name\":\"off\"},{\"id\":\"1\",\"name\":\"1\"},{\"id\
":\"2\",\"name\":\"2\"},{\"id\":\"3\",\"name\":\"3\"}]}],\"parts\":[{\"id\":\"G1\",\"kind\":\"ba
ttery\",\"name\":\"batteries\",\"at\":\"battery box\",\"minutes\":3,\"probe\":[\"+\",\"-\"],\"ha
zards\":[\"battery\"]},{\"id\":\"F1\",\"kind\":\"fuse\",\"name\":\"fuse F1\",\"values\":{\"amps\
":15},\"at\":\"fuse box in the dash\",\"minutes\":1,\"probe\":[\"1\",\"2\"]},{\"id\":\"S1\",\"ki
nd\":\"switch\",\"name\":\"fan switch\",\"at\":\"dash\",\"values\":{\"terminals\":[\"B\",\"1\",\
"2\",\"3\"],\"closes\":{\"0\":[],\"1\":[[\"B\",\"1\"]],\"2\":[[\"B\",\"2\"]],\"3\":[[\"B\",\"3\"
]]},\"rating_amps\":16}},{\"id\":\"R1\",\"kind\":\"resistor_pack\",\"name\":\"resistor pack\",\"
at\":\"in the fan's air duct, left side\",\"minutes\":5,\"values\":{\"steps_ohms\":[1.8,1.2],\"r
ating_amps\":6.5,\"cooled_by\":\"M1\"},\"probe\":[\"link\"],\"hazards\":[\"hot part\"]},{\"id\":
\"M1\",\"kind\":\"motor\",\"name\":\"fan motor\",\"at\":\"under the rear seat\",\"values\":{\"am
ps\":8,\"volts\":27,\"ohms\":0.6},\"hazards\":[\"moving fan\"]},{\"id\":\"E1\",\"kind\":\"earth_
point\",\"name\":\"earth point E1\",\"at\":\"floor cross member, rear\",\"minutes\":3,\"probe\":
[\"1\"]},{\"id\":\"E0\",\"kind\":\"earth_point\",\"name\":\"battery earth\",\"at\":\"battery box
\",\"minutes\":3,\"probe\":[\"1\"]}],\"connectors\":[{\"id\":\"X1\",\"name\":\"plug X1\",\"half_
a\":\"dash loom\",\"half_b\":\"saloon loom\",\"at\":\"left A-pillar, lower trim\",\"rows\":[[\"1
\",\"2\",\"3\"]],\"terminal_mm\":6.3,\"rating_amps\":25,\"minutes\":3,\"unplug_minutes\":1},{\"i
d\":\"X2\",\"name\":\"switch plug X2\",\"half_a\":\"wire side\",\"half_b\":\"switch\",\"at\":\"b
ehind the fan switch\",\"rows\":[[\"1\",\"2\",\"3\",\"4\",\"5\",\"6\"]],\"landmark\":\"locking t
ab at the top\",\"part_ways\":{\"1\":\"S1.B\",\"2\":\"S1.1\",\"3\":\"S1.2\",\"4\":\"S1.3\"},\"te
rminal_mm\":6.3,\"rating_amps\":25,\"minutes\":2,\"unplug_minutes\":0.5},{\"id\":\"X3\",\"name\"
:\"pack plug X3\",\"half_a\":\"wire side\",\"half_b\":\"pack\",\"at\":\"at the resistor pack\",\
"rows\":[[\"1\",\"2\",\"3\"]],\"part_ways\":{\"1\":\"R1.in1\",\"2\":\"R1.in2\",\"3\":\"R1.out\"}
,\"terminal_mm\":6.3,\"rating_amps\":25,\"minutes\":4,\"unplug_minutes\":0.5,\"hazards\":[\"ho
t part\"]},{\"id\":\"X4\",\"name\":\"motor plug X4\",\"half_a\":\"wire side\",\"half_b\":\"motor
\",\"at\":\"at the fan motor, under the rear seat\",\"rows\":[[\"1\",\"2\"]],\"part_ways\":{\"1\
":\"M1.+\",\"2\":\"M1.-\"},\"terminal_mm\":6.3,\"rating_amps\":15,\"minutes\":4,\"unplug_minutes
\":0.5,\"hazards\":[\"moving fan\"]}],\"wires\":[{\"id\":\"W0\",\"start\":\"G1.-\",\"end\":\"E0.
1\",\"colour\":\"BK\",\"mm2\":50,\"metres\":0.5},{\"id\":\"W1\",\"start\":\"G1.+\",\"end\":\"F1.
1\",\"colour\":\"RD\",\"mm2\":6,\"metres\":3},{\"id\":\"W2\",\"start\":\"F1.2\",\"end\":\"X2.1.a
\",\"colour\":\"RD/BK\",\"mm2\":2.5,\"metres\":1},{\"id\":\"W3\",\"start\":\"X2.2.a\",\"end\":\"
X1.1.a\",\"colour\":\"GN/WH\",\"mm2\":2.5,\"metres\":1.2},{\"id\":\"W4\",\"start\":\"X2.3.a\",\"
end\":\"X1.2.a\",\"colour\":\"GN/BK\",\"mm2\":2.5,\"metres\":1.2},{\"id\":\"W5\",\"start\":\"X2.
4.a\",\"end\":\"X1.3.a\",\"colour\":\"GN/RD\",\"mm2\":2.5,\"metres\":1.2},{\"id\":\"W6\",\"start
\":\"X1.1.b\",\"end\":\"X3.1.a\",\"colour\":\"GN/WH\",\"mm2\":2.5,\"metres\":4},{\"id\":\"W7\",\
"start\":\"X1.2.b\",\"end\":\"X3.2.a\",\"colour\":\"GN/BK\",\"mm2\":2.5,\"metres\":4},{\"id\":\"
W8\",\"start\":\"X1.3.b\",\"end\":\"X4.1.a\",\"colour\":\"GN/RD\",\"mm2\":2.5,\"metres\":5},{\"i
d\":\"W9\",\"start\":\"X3.3.a\",\"end\":\"X4.1.a\",\"colour\":\"BU\",\"mm2\":2.5,\"metres\":1},{
\"id\":\"W10\",\"start\":\"X4.2.a\",\"end\":\"E1.1\",\"colour\":\"BN\",\"mm2\":2.5,\"metres\":1}
]}}"}{"device":","n":1,"kind":"job opened","format":1,"at":"2026-","body":"{\"title\":\"Rear wor
k lamps\",\"sheet\":{\"format\":1,\"id\":\"tractor-work-lamps\",\"title\":\"Rear work lamps\",\"
vehicle\":\"Tractor, 12 V\",\"system_volts\":12,\"summary\":\"Two rear work lamps on a relay tha
t a control unit switches; the right one with a switch of its own on the mudguard, which also fe
eds the hitch lamp. The work lamps share one earth.\",\"working_amps\":13,\"loads\":[\"L1\",\"L2
\",\"H1\"],\"controls\":[{\"part\":\"A1\",\"name\":\"work lamp button\",\"off\":\"off\",\"positi
ons\":[{\"id\":\"off\",\"name\":\"off\"},{\"id\":\"on\",\"name\":\"on\"}]},{\"part\":\"S2\",\"na
me\":\"right lamp switch\",\"off\":\"off\",\"positions\":[{\"id\":\"off\",\"name\":\"off\"},{\"i
d\":\"on\",\"name\":\"on\"}]}],\"parts\":[{\"id\":\"G1\",\"kind\":\"battery\",\"name\":\"battery
\",\"at\":\"under the left step\",\"minutes\":4,\"probe\":[\"+\",\"-\"],\"hazards\":[\"battery\"
]},{\"id\":\"E0\",\"kind\":\"earth_point\",\"name\":\"battery earth\",\"at\":\"frame beside th
e battery\",\"minutes\":4,\"probe\":[\"1\"]},{\"id\":\"F1\",\"kind\":\"fuse\",\"name\":\"fuse F1
\",\"values\":{\"amps\":20},\"at\":\"fuse box in the cab, right side\",\"minutes\":1,\"probe\":[
\"1\",\"2\"]},{\"id\":\"F2\",\"kind\":\"fuse\",\"name\":\"coil fuse F2\",\"values\":{\"amps\":2}
,\"at\":\"fuse box in the cab, right side\",\"minutes\":1,\"probe\":[\"1\",\"2\"]},{\"id\":\"F3\
",\"kind\":\"fuse\",\"name\":\"unit fuse F3\",\"values\":{\"amps\":5},\"at\":\"fuse box in the c
ab, right side\",\"minutes\":1,\"probe\":[\"1\",\"2\"]},{\"id\":\"A1\",\"kind\":\"output\",\"nam
e\":\"work lamp output\",\"at\":\"control unit under the seat\",\"values\":{\"limit_amps\":6,\"o
hms\":0.15,\"rating_amps\":1.5},\"assumed\":[\"limit_amps\",\"ohms\"],\"hazards\":[\"module inpu
t\"]},{\"id\":\"K1\",\"kind\":\"relay\",\"name\":\"work lamp relay\",\"at\":\"relay carrier besi
de the fuse box\",\"values\":{\"coil_ohms\":85,\"diode\":true,\"rating_amps\":30}},{\"id\":\"S2\
",\"kind\":\"switch\",\"name\":\"right lamp switch\",\"at\":\"right mudguard, outside\",\"minute
s\":3,\"probe\":[\"1\",\"2\"],\"values\":{\"terminals\":[\"1\",\"2\"],\"closes\":{\"off\":[],\"o
n\":[[\"1\",\"2\"]]},\"rating_amps\":16}},{\"id\":\"L1\",\"kind\":\"lamp\",\"name\":\"left wor
k lamp\",\"at\":\"cab roof, rear left\",\"values\":{\"watts\":55,\"volts\":12},\"hazards\":[\"ho
t part\"]},{\"id\":\"L2\",\"kind\":\"lamp\",\"name\":\"right work lamp\",\"at\":\"cab roof, rea
r right\",\"values\":{\"watts\":55,\"volts\":12},\"hazards\":[\"hot part\"]},{\"id\":\"H1\",\"ki
nd\":\"lamp\",\"name\":\"hitch lamp\",\"at\":\"right mudguard, towards the hitch\",\"minutes\":3
,\"probe\":[\"1\",\"2\"],\"values\":{\"watts\":35,\"volts\":12},\"hazards\":[\"hot part\"]},{\"i
d\":\"SP1\",\"kind\":\"splice\",\"name\":\"feed splice\",\"at\":\"cab loom behind the fuse box\"
,\"values\":{\"wires\":3}},{\"id\":\"SP2\",\"kind\":\"splice\",\"name\":\"earth splice\",\"at\":
\"rear loom, roof rail\",\"values\":{\"wires\":3}},{\"id\":\"SP3\",\"kind\":\"splice\",\"name\":
\"right lamp splice\",\"at\":\"rear loom, right mudguard\",\"values\":{\"wires\":3}},{\"id\":\"E
1\",\"kind\":\"earth_point\",\"name\":\"earth point E1\",\"at\":\"cab frame, rear right post\",\
"minutes\":3,\"probe\":[\"1\"]},{\"id\":\"E2\",\"kind\":\"earth_point\",\"name\":\"earth point E
2\",\"at\":\"cab floor under the fuse box\",\"minutes\":2,\"probe\":[\"1\"]},{\"id\":\"E3\",\"ki
nd\":\"earth_point\",\"name\":\"earth point E3\",\"at\":\"right mudguard, inside\",\"minutes\":3
,\"probe\":[\"1\"]}],\"connectors\":[{\"id\":\"X1\",\"name\":\"unit plug X1\",\"half_a\":\"wir
e side\",\"half_b\":\"control unit\",\"at\":\"control unit under the seat\",\"rows\":[[\"1\",\"2
\",\"3\",\"4\"]],\"part_ways\":{\"1\":\"A1.supply\",\"3\":\"A1.out\"},\"terminal_mm\":1.5,\"rati
ng_amps\":10,\"minutes\":4,\"unplug_minutes\":1,\"hazards\":[\"module input\"]},{\"id\":\"X5\",\
"name\":\"relay socket X5\",\"half_a\":\"wire side\",\"half_b\":\"relay\",\"at\":\"relay carrie
r beside the fuse box\",\"rows\":[[\"30\"],[\"86\",\"85\"],[\"87\"]],\"landmark\":\"30 at the to
p\",\"part_ways\":{\"30\":\"K1.30\",\"87\":\"K1.87\",\"86\":\"K1.86\",\"85\":\"K1.85\"},\"termin
al_mm\":6.3,\"rating_amps\":30,\"minutes\":2,\"unplug_minutes\":0.5},{\"id\":\"X6\",\"name\":\"l
eft lamp plug X6\",\"half_a\":\"wire side\",\"half_b\":\"lamp\",\"at\":\"cab roof, rear left, be
hind the lamp\",\"rows\":[[\"1\",\"2\"]],\"part_ways\":{\"1\":\"L1.1\",\"2\":\"L1.2\"},\"termina
l_mm\":2.8,\"rating_amps\":15,\"minutes\":3,\"unplug_minutes\":0.5,\"hazards\":[\"hot part\"]},{
\"id\":\"X7\",\"name\":\"right lamp plug X7\",\"half_a\":\"wire side\",\"half_b\":\"lamp\",\"at\
":\"cab roof, rear right, behind the lamp\",\"rows\":[[\"1\",\"2\"]],\"part_ways\":{\"1\":\"L2.1
\",\"2\":\"L2.2\"},\"terminal_mm\":2.8,\"rating_amps\":15,\"minutes\":3,\"unplug_minutes\":0.5,\
"hazards\":[\"hot part\"]},{\"id\":\"X8\",\"name\":\"loom plug X8\",\"half_a\":\"cab loom\",\"ha
lf_b\":\"rear loom\",\"at\":\"behind the trim of the rear right cab post\",\"rows\":[[\"1\",\"2\
",\"3\"]],\"terminal_mm\":2.8,\"rating_amps\":20,\"minutes\":4,\"unplug_minutes\":1}],\"wires\":
[{\"id\":\"W0\",\"start\":\"G1.-\",\"end\":\"E0.1\",\"colour\":\"BK\",\"mm2\":50,\"metres\":0.5}
,{\"id\":\"W1\",\"start\":\"G1.+\",\"end\":\"F1.1\",\"colour\":\"RD\",\"mm2\":10,\"metres\":2},{
\"id\":\"W2\",\"start\":\"F1.2\",\"end\":\"X5.30.a\",\"colour\":\"RD/YE\",\"mm2\":6,\"metres\":0
.6},{\"id\":\"W3\",\"start\":\"G1.+\",\"end\":\"F3.1\",\"colour\":\"RD\",\"mm2\":2.5,\"metres\":
2},{\"id\":\"W4\",\"start\":\"F3.2\",\"end\":\"X1.1.a\",\"colour\":\"RD/WH\",\"mm2\":1,\"metres\
":1.2},{\"id\":\"W5\",\"start\":\"X1.3.a\",\"end\":\"F2.1\",\"colour\":\"BU/WH\",\"mm2\":0.75,\"
metres\":1.2},{\"id\":\"W6\",\"start\":\"F2.2\",\"end\":\"X5.86.a\",\"colour\":\"BU/WH\",\"mm2\"
:0.75,\"metres\":0.5},{\"id\":\"W7\",\"start\":\"X5.85.a\",\"end\":\"E2.1\",\"colour\":\"BN\",\"
mm2\":0.75,\"metres\":0.8},{\"id\":\"W8\",\"start\":\"X5.87.a\",\"end\":\"SP1.1\",\"colour\":\"Y
E\",\"mm2\":6,\"metres\":1},{\"id\":\"W9\",\"start\":\"SP1.2\",\"end\":\"X8.1.a\",\"colour\":\"Y
E\",\"mm2\":2.5,\"metres\":0.8},{\"id\":\"W10\",\"start\":\"SP1.3\",\"end\":\"X8.2.a\",\"colour\
":\"YE/GN\",\"mm2\":4,\"metres\":0.8},{\"id\":\"W11\",\"start\":\"X8.1.b\",\"end\":\"X6.1.a\",\"
colour\":\"YE\",\"mm2\":2.5,\"metres\":null,\"at\":\"rear loom, along the roof rail\"},{\"id\":\
"W12\",\"start\":\"X8.2.b\",\"end\":\"S2.1\",\"colour\":\"YE/GN\",\"mm2\":4,\"metres\":1.5},{\"i
d\":\"W13\",\"start\":\"S2.2\",\"end\":\"SP3.1\",\"colour\":null,\"mm2\":4,\"metres\":0.6,\"at\"
:\"in the sleeve at the switch\"},{\"id\":\"W14\",\"start\":\"SP3.2\",\"end\":\"X7.1.a\",\"colou
r\":\"YE/RD\",\"mm2\":2.5,\"metres\":1.2},{\"id\":\"W15\",\"start\":\"SP3.3\",\"end\":\"H1.1\",\
"colour\":\"YE/RD\",\"mm2\":1.5,\"metres\":0.5},{\"id\":\"W16\",\"start\":\"H1.2\",\"end\":\"E3.
1\",\"colour\":\"BN\",\"mm2\":1.5,\"metres\":0.4},{\"id\":\"W17\",\"start\":\"X6.2.a\",\"end\":\
"SP2.2\",\"colour\":\"BN\",\"mm2\":2.5,\"metres\":2},{\"id\":\"W18\",\"start\":\"X7.2.a\",\"end\
":\"SP2.3\",\"colour\":\"BN\",\"mm2\":2.5,\"metres\":0.8},{\"id\":\"W19\",\"start\":\"SP2.1\",\"
end\":\"E1.1\",\"colour\":\"BN\",\"mm2\":4,\"metres\":0.5}]}}"}{"device":","n":1,"kind":"job ope
ned","format":1,"at":"2026-","body":"{\"title\":\"Heated rear screen\",\"sheet\":{\"format\":1,\
"id\":\"van-rear-screen\",\"title\":\"Heated rear screen\",\"vehicle\":\"Delivery van, 12 V\",\"
system_volts\":12,\"summary\":\"Heated screen in the rear door on a relay: fed through the plu
g between body and door, the loom over the hinge and the blade at the screen; its earth comes ba
ck over the hinge.\",\"working_amps\":13.5,\"loads\":[\"H1\"],\"controls\":[{\"part\":\"S0\",\"n
ame\":\"ignition\",\"off\":\"off\",\"positions\":[{\"id\":\"off\",\"name\":\"off\"},{\"id\":\"on
\",\"name\":\"on\"}]},{\"part\":\"S1\",\"name\":\"rear screen switch\",\"off\":\"off\",\"positio
ns\":[{\"id\":\"off\",\"name\":\"off\"},{\"id\":\"on\",\"name\":\"on\"}]}],\"parts\":[{\"id\":\"
G1\",\"kind\":\"battery\",\"name\":\"battery\",\"at\":\"engine bay, left\",\"minutes\":3,\"probe
\":[\"+\",\"-\"],\"hazards\":[\"battery\"]},{\"id\":\"E0\",\"kind\":\"earth_point\",\"name\":\"b
attery earth\",\"at\":\"inner wing beside the battery\",\"minutes\":3,\"probe\":[\"1\"]},{\"id\"
:\"F1\",\"kind\":\"fuse\",\"name\":\"fuse F1\",\"values\":{\"amps\":25},\"at\":\"fuse box in th
e dash\",\"minutes\":1,\"probe\":[\"1\",\"2\"]},{\"id\":\"F2\",\"kind\":\"fuse\",\"name\":\"fus
e F2\",\"values\":{\"amps\":5},\"at\":\"fuse box in the dash\",\"minutes\":1,\"probe\":[\"1\",\"
2\"]},{\"id\":\"S0\",\"kind\":\"switch\",\"name\":\"ignition switch\",\"at\":\"steering column\"
,\"values\":{\"terminals\":[\"30\",\"15\"],\"closes\":{\"off\":[],\"on\":[[\"30\",\"15\"]]},\"ra
ting_amps\":30}},{\"id\":\"S1\",\"kind\":\"switch\",\"name\":\"rear screen switch\",\"at\":\"das
h, right of the wheel\",\"values\":{\"terminals\":[\"1\",\"2\"],\"closes\":{\"off\":[],\"on\":[[
\"1\",\"2\"]]},\"rating_amps\":null}},{\"id\":\"K1\",\"kind\":\"relay\",\"name\":\"rear screen r
elay\",\"at\":\"relay carrier in the dash\",\"values\":{\"coil_ohms\":null,\"diode\":false,\"rat
ing_amps\":30}},{\"id\":\"H1\",\"kind\":\"heater\",\"name\":\"rear screen\",\"at\":\"rear door\"
,\"minutes\":1,\"probe\":[\"+\",\"-\"],\"values\":{\"watts\":180,\"volts\":13.5},\"hazards\":[\"
hot part\"]},{\"id\":\"E1\",\"kind\":\"earth_point\",\"name\":\"earth point E1\",\"at\":\"roof r
ail, rear left, behind the trim\",\"minutes\":4,\"probe\":[\"1\"]},{\"id\":\"E2\",\"kind\":\"ear
th_point\",\"name\":\"earth point E2\",\"at\":\"dash cross member\",\"minutes\":3,\"probe\":[\"1
\"]}],\"connectors\":[{\"id\":\"X1\",\"name\":\"door plug X1\",\"half_a\":\"body loom\",\"half_b
\":\"hinge loom\",\"at\":\"roof rail, rear left, behind the trim\",\"rows\":[[\"1\",\"2\"],[\"3\
",\"4\"]],\"landmark\":\"locking tab at the top\",\"terminal_mm\":2.8,\"rating_amps\":20,\"minut
es\":4,\"unplug_minutes\":1},{\"id\":\"X2\",\"name\":\"feed blade X2\",\"half_a\":\"wire side\",
\"half_b\":\"screen\",\"at\":\"left edge of the screen\",\"rows\":[[\"1\"]],\"landmark\":\"one b
lade, either way up\",\"part_ways\":{\"1\":\"H1.+\"},\"terminal_mm\":6.3,\"rating_amps\":25,\"mi
nutes\":1,\"unplug_minutes\":0.2,\"hazards\":[\"hot part\"]},{\"id\":\"X3\",\"name\":\"earth bla
de X3\",\"half_a\":\"wire side\",\"half_b\":\"screen\",\"at\":\"right edge of the screen\",\"row
s\":[[\"1\"]],\"landmark\":\"one blade, either way up\",\"part_ways\":{\"1\":\"H1.-\"},\"termina
l_mm\":6.3,\"rating_amps\":25,\"minutes\":1,\"unplug_minutes\":0.2,\"hazards\":[\"hot part\"]},{
\"id\":\"X5\",\"name\":\"relay socket X5\",\"half_a\":\"wire side\",\"half_b\":\"relay\",\"at\":
\"relay carrier in the dash\",\"rows\":[[\"30\"],[\"86\",\"85\"],[\"87\"]],\"landmark\":\"30 a
t the top\",\"part_ways\":{\"30\":\"K1.30\",\"87\":\"K1.87\",\"86\":\"K1.86\",\"85\":\"K1.85\"},
\"terminal_mm\":6.3,\"rating_amps\":30,\"minutes\":3,\"unplug_minutes\":0.5},{\"id\":\"X6\",\"na
me\":\"switch plug X6\",\"half_a\":\"wire side\",\"half_b\":\"switch\",\"at\":\"behind the rea
r screen switch\",\"rows\":[[\"1\",\"2\",\"3\",\"4\"]],\"part_ways\":{\"1\":\"S1.1\",\"2\":\"S1.
2\"},\"terminal_mm\":null,\"rating_amps\":10,\"minutes\":3,\"unplug_minutes\":0.5},{\"id\":\"X7\
",\"name\":\"ignition plug X7\",\"half_a\":\"wire side\",\"half_b\":\"ignition switch\",\"at\":\
"steering column, lower cover\",\"rows\":[[\"1\",\"2\"],[\"3\",\"4\"]],\"part_ways\":{\"1\":\"S0
.30\",\"2\":\"S0.15\"},\"terminal_mm\":6.3,\"rating_amps\":30,\"minutes\":6,\"unplug_minutes\":1
}],\"wires\":[{\"id\":\"W0\",\"start\":\"G1.-\",\"end\":\"E0.1\",\"colour\":\"BK\",\"mm2\":35,\"
metres\":0.4},{\"id\":\"W1\",\"start\":\"G1.+\",\"end\":\"F1.1\",\"colour\":\"RD\",\"mm2\":10,\"
metres\":2},{\"id\":\"W2\",\"start\":\"F1.2\",\"end\":\"X5.30.a\",\"colour\":\"RD/BU\",\"mm2\":4
,\"metres\":0.5},{\"id\":\"W3\",\"start\":\"X5.87.a\",\"end\":\"X1.1.a\",\"colour\":\"BK/YE\",\"
mm2\":6,\"metres\":4.5,\"at\":\"along the roof rail\"},{\"id\":\"W4\",\"start\":\"X1.1.b\",\"end
\":\"X2.1.a\",\"colour\":null,\"mm2\":4,\"metres\":1.2,\"at\":\"hinge loom, in its rubber sleeve
\",\"moves\":true},{\"id\":\"W5\",\"start\":\"X3.1.a\",\"end\":\"X1.2.b\",\"colour\":\"BN\",\"mm
2\":4,\"metres\":null,\"at\":\"hinge loom, in its rubber sleeve\",\"moves\":true},{\"id\":\"W6\"
,\"start\":\"X1.2.a\",\"end\":\"E1.1\",\"colour\":\"BN\",\"mm2\":4,\"metres\":0.4},{\"id\":\"W7\
",\"start\":\"G1.+\",\"end\":\"X7.1.a\",\"colour\":\"RD\",\"mm2\":4,\"metres\":2},{\"id\":\"W8\"
,\"start\":\"X7.2.a\",\"end\":\"F2.1\",\"colour\":\"BK/RD\",\"mm2\":2.5,\"metres\":0.8},{\"id\":
\"W9\",\"start\":\"F2.2\",\"end\":\"X6.1.a\",\"colour\":\"BK/BU\",\"mm2\":0.75,\"metres\":0.7},{
\"id\":\"W10\",\"start\":\"X6.2.a\",\"end\":\"X5.86.a\",\"colour\":\"BU/YE\",\"mm2\":0.5,\"metre
s\":0.9},{\"id\":\"W11\",\"start\":\"X5.85.a\",\"end\":\"E2.1\",\"colour\":\"BN\",\"mm2\":0.5,\"
metres\":0.6}]}}"}StillSlowRunsstillslowrunsDarkGlowsDimBrightdarkglowsdimbrightColdLukewarmWarm
coldlukewarmwarmNo clickClicksno clickclicksvoltstest lampsubstitute lampclampohmsdirect feedlam
p for fuselooklistenterminal + of batteries G1terminal - of batteries G1terminal 1 of fuse F1ter
minal 2 of fuse F1terminal link of resistor pack R1terminal 1 of earth point E1terminal 1 of bat
tery earth E0way 1 (GN/WH) of plug X1, dash loomway 1 (GN/WH) of plug X1, saloon loomway 2 (GN/B
K) of plug X1, dash loomway 2 (GN/BK) of plug X1, saloon loomway 3 (GN/RD) of plug X1, dash loom
way 3 (GN/RD) of plug X1, saloon loomway 1 (RD/BK) of switch plug X2, wire sideway 1 of switch p
lug X2, switchway 2 (GN/WH) of switch plug X2, wire sideway 2 of switch plug X2, switchway 3 (GN
/BK) of switch plug X2, wire sideway 3 of switch plug X2, switchway 4 (GN/RD) of switch plug X2
, wire sideway 4 of switch plug X2, switchway 1 (GN/WH) of pack plug X3, wire sideway 1 of pac
k plug X3, packway 2 (GN/BK) of pack plug X3, wire sideway 2 of pack plug X3, packway 3 (BU) o
f pack plug X3, wire sideway 3 of pack plug X3, packway 1 (GN/RD, BU) of motor plug X4, wire sid
eway 1 of motor plug X4, motorway 2 (BN) of motor plug X4, wire sideway 2 of motor plug X4, moto
rclean metal of the bodybatteries G1fuse F1fan switch S1resistor pack R1fan motor M1earth poin
t E1battery earth E0BK wire (W0)RD wire (W1)RD/BK wire (W2)GN/WH wire (W3)GN/BK wire (W4)GN/RD w
ire (W5)GN/WH wire (W6)GN/BK wire (W7)GN/RD wire (W8)BU wire (W9)BN wire (W10)X1 way 1X1 way 2X
1 way 3X2 way 1X2 way 2X2 way 3X2 way 4X3 way 1X3 way 2X3 way 3X4 way 1X4 way 2terminal + of bat
tery G1terminal - of battery G1terminal 1 of coil fuse F2terminal 2 of coil fuse F2terminal 1 o
f unit fuse F3terminal 2 of unit fuse F3terminal 1 of right lamp switch S2terminal 2 of right la
mp switch S2terminal 1 of hitch lamp H1terminal 2 of hitch lamp H1terminal 1 of earth point E2te
rminal 1 of earth point E3way 1 (RD/WH) of unit plug X1, wire sideway 1 of unit plug X1, contro
l unitway 3 (BU/WH) of unit plug X1, wire sideway 3 of unit plug X1, control unitway 30 (RD/YE
) of relay socket X5, wire sideway 30 of relay socket X5, relayway 86 (BU/WH) of relay socket X5
, wire sideway 86 of relay socket X5, relayway 85 (BN) of relay socket X5, wire sideway 85 of re
lay socket X5, relayway 87 (YE) of relay socket X5, wire sideway 87 of relay socket X5, relaywa
y 1 (YE) of left lamp plug X6, wire sideway 1 of left lamp plug X6, lampway 2 (BN) of left lam
p plug X6, wire sideway 2 of left lamp plug X6, lampway 1 (YE/RD) of right lamp plug X7, wire si
deway 1 of right lamp plug X7, lampway 2 (BN) of right lamp plug X7, wire sideway 2 of right lam
p plug X7, lampway 1 (YE) of loom plug X8, cab loomway 1 (YE) of loom plug X8, rear loomway 2 (Y
E/GN) of loom plug X8, cab loomway 2 (YE/GN) of loom plug X8, rear loombattery G1coil fuse F2uni
t fuse F3work lamp output A1work lamp relay K1right lamp switch S2left work lamp L1right work la
mp L2hitch lamp H1feed splice SP1earth splice SP2right lamp splice SP3earth point E2earth poin
t E3RD/YE wire (W2)RD wire (W3)RD/WH wire (W4)BU/WH wire (W5)BU/WH wire (W6)BN wire (W7)YE wir
e (W8)YE wire (W9)YE/GN wire (W10)YE wire (W11)YE/GN wire (W12)wire W13YE/RD wire (W14)YE/RD wir
e (W15)BN wire (W16)BN wire (W17)BN wire (W18)BN wire (W19)X5 way 30X5 way 86X5 way 85X5 way 87X
6 way 1X6 way 2X7 way 1X7 way 2X8 way 1X8 way 2terminal 1 of fuse F2terminal 2 of fuse F2termina
l + of rear screen H1terminal - of rear screen H1way 1 (BK/YE) of door plug X1, body loomway 1 o
f door plug X1, hinge loomway 2 (BN) of door plug X1, body loomway 2 (BN) of door plug X1, hing
e loomway 1 of feed blade X2, wire sideway 1 of feed blade X2, screenway 1 (BN) of earth blade X
3, wire sideway 1 of earth blade X3, screenway 30 (RD/BU) of relay socket X5, wire sideway 86 (B
U/YE) of relay socket X5, wire sideway 87 (BK/YE) of relay socket X5, wire sideway 1 (BK/BU) o
f switch plug X6, wire sideway 1 of switch plug X6, switchway 2 (BU/YE) of switch plug X6, wir
e sideway 2 of switch plug X6, switchway 1 (RD) of ignition plug X7, wire sideway 1 of ignitio
n plug X7, ignition switchway 2 (BK/RD) of ignition plug X7, wire sideway 2 of ignition plug X7
, ignition switchfuse F2ignition switch S0rear screen switch S1rear screen relay K1rear screen H
1RD/BU wire (W2)BK/YE wire (W3)wire W4BN wire (W5)BN wire (W6)RD wire (W7)BK/RD wire (W8)BK/BU w
ire (W9)BU/YE wire (W10)BN wire (W11){\"check\":\"\",\"reason\":\"cannot reach\",\"asked\":\"{\"
changes\":[{\"element\":\"\",\"field\":\"colour\",\"value\":\"RD\"}]}{\"element\":\"\",\"mode\":
\"high_resistance\",\"what\":\"mended\",\"note\":\"\"}{\"element\":\"\",\"mode\":\"open:therma
l fuse\",\"what\":\"renewed\",\"note\":\"\"}{\"words\":\"\",\"dead_now\":\"comes and goes\",\"re
newed\":[{\"words\":\"\",\"dead_now\":\"yes\",\"renewed\":[],\"rewired\":[\"X2\"],\"seen\":[{\"w
here\":\"\",\"what\":\"green\"}]}{\"connector\":\"X2\",\"half\":\"a\",\"found\":{\"1\":\"W2\",\"
2\":null,\"3\":null,\"4\":null},\"loose\":[]}{\"connector\":\"X2\",\"half\":\"a\",\"now\":{\"1\"
:\"W2\",\"2\":\"W3\",\"3\":\"W4\",\"4\":\"W5\",\"5\":null,\"6\":null}}{\"engine\":\"off\"}{\"eng
ine\":\"on\",\"supply_volts\":12.{\"instruments\":[\"meter\",\"test lamp\",\"substitute lamp\",\
"clamp\",\"fused jumper\"],\"helper\":false}{\"hazard\":\"moving fan\"}{\"hazard\":\"hot part\"}
{\"hazard\":\"battery\"}{\"hazard\":\"fused lead\"}{\"seen_by\":\"customer\",\"states\":[{\"cont
rols\":{\"S1\":\"1\"},\"load\":\"M1\",\"state\":\"still\"}{\"seen_by\":\"me\",\"states\":[{\"con
trols\":{\"S1\":\"1\"},\"load\":\"M1\",\"state\":\"runs\"},{\"controls\":{\"Can the feed and th
e earth carry a lamp?Does the feed hold under a lamp in place of the load?Unplug . Put a 21 W la
mp across its two ways. Switch on and look at the lamp.Feed it from the battery through a lead w
ith a fuse of at most 15 A, its other side to battery −. Mind the polarity.Pull  out and look a
t its wire. on both halves, pull gently on each wire.Is  sound to the eye?Is  sound by itself?Wh
at current flows in Put the clamp around  alone, arrow along the current.Switch off, unplug  an
d pull out  Meter on Ω between  and . Then lead and knob back to V.What stands at Clip the tes
t lamp to clean metal of the body. Touch What is lost across Red lead on terminal burnt, green o
r looseclean and tightover rangenot steadyOver rangeAll well here.Fits nothing suspected so far
; measure again.above the bandin the bandnot as expected\"as expected\"[\"Higher\",\"Points to [
\"Lower\",\"Points to [\"In the band\",\"Points to . Clears 1. Clears 2 or 1 more. or 2 more. Cl
ears  or 3 more.","kind":"job opened","format":1,"at":"2026-","kind":"sheet edited","format":1,"
at":"2026-","kind":"story told","format":1,"at":"2026-","kind":"tools stated","format":1,"at":"2
026-","kind":"positions tried","format":1,"at":"2026-","kind":"reading taken","format":1,"at":"2
026-","kind":"check skipped","format":1,"at":"2026-","kind":"wiring found","format":1,"at":"2026
-","kind":"wiring corrected","format":1,"at":"2026-","kind":"repair done","format":1,"at":"2026-
","kind":"event withdrawn","format":1,"at":"2026-","kind":"caution passed","format":1,"at":"2026
-","kind":"sitting begun","format":1,"at":"2026-","kind":"note made","format":1,"at":"2026-{"dev
ice":","n":1,"kind":"check skipped","format":1,"at":"2026-","body":"{\"check\":\"volts \",\"reas
on\":\"alone\",\"asked\":\"\"}"}{"device":","n":1,"kind":"reading taken","format":1,"at":"2026-"
,"body":"{\"check\":\"clamp W\",\"instrument\":\"clamp\",\"red\":\"W\",\"black\":\"\",\"setup\":
{\"controls\":{\"S1\":\"3\"},\"apart\":[],\"stand_in\":{}},\"value\":0.0,\"choice\":\"\",\"typed
\":\"0 A\",\"complaint\":\"present\",\"shown\":{\"goal\":\"Does the feed reach way \",\"do\":\"B
ack-probe way , wire side. Black lead on clean metal of the body.\",\"low\":0.0,\"high\":2.0,\"u
nit\":\"A\",\"outcomes\":[[\"About 0 V\",\"Points to . Clears 1.\"],[\"Near supply voltage\",\"P
oints to . Clears 3.\"]],\"verdict\":\"below the band\",\"release\":\"0.1.0\"}}"}{"device":","n"
:1,"kind":"reading taken","format":1,"at":"2026-","body":"{\"check\":\"substitute lamp X\",\"ins
trument\":\"substitute lamp\",\"red\":\"X\",\"black\":\"\",\"setup\":{\"controls\":{\"A1\":\"on\
",\"S2\":\"off\"},\"apart\":[\"X4\"],\"stand_in\":{\"X4\":\"21 W\"}},\"value\":null,\"choice\":\
"bright\",\"typed\":\"\",\"complaint\":\"present\",\"shown\":{\"goal\":\"Does the feed reach wa
y \",\"do\":\"Back-probe way , wire side. Black lead on clean metal of the body.\",\"low\":null,
\"high\":null,\"unit\":\"\",\"outcomes\":[[\"Dark\",\"Points to . Clears 1.\"],[\"Bright\",\"Poi
nts to . Clears 3.\"]],\"verdict\":\"as expected\",\"release\":\"0.1.0\"}}"}{"device":","n":1,"k
ind":"reading taken","format":1,"at":"2026-","body":"{\"check\":\"test lamp X6.1.a\",\"instrumen
t\":\"test lamp\",\"red\":\"X6.1.a\",\"black\":\"earth\",\"setup\":{\"controls\":{},\"apart\":[]
,\"stand_in\":{}},\"value\":null,\"choice\":\"bright\",\"typed\":\"\",\"complaint\":\"present\",
\"shown\":{\"goal\":\"Does the feed reach way \",\"do\":\"Back-probe way , wire side. Black lea
d on clean metal of the body.\",\"low\":null,\"high\":null,\"unit\":\"\",\"outcomes\":[[\"Dark\"
,\"Points to . Clears 1.\"],[\"Bright\",\"Points to . Clears 3.\"]],\"verdict\":\"as expected\",
\"release\":\"0.1.0\"}}"}{"device":","n":1,"kind":"reading taken","format":1,"at":"2026-","body"
:"{\"check\":\"ohms X\",\"instrument\":\"ohms\",\"red\":\"X\",\"black\":\"\",\"setup\":{\"contro
ls\":{},\"apart\":[\"X3\"],\"stand_in\":{}},\"value\":0.0,\"choice\":\"\",\"typed\":\"0 Ω\",\"co
mplaint\":\"present\",\"shown\":{\"goal\":\"Does the feed reach way \",\"do\":\"Back-probe wa
y , wire side. Black lead on clean metal of the body.\",\"low\":0.0,\"high\":2.0,\"unit\":\"Ω\",
\"outcomes\":[[\"About 0 V\",\"Points to . Clears 1.\"],[\"Near supply voltage\",\"Points to . C
lears 3.\"]],\"verdict\":\"below the band\",\"release\":\"0.1.0\"}}"}{"device":","n":1,"kind":"r
eading taken","format":1,"at":"2026-","body":"{\"check\":\"volts X\",\"instrument\":\"volts\",\"
red\":\"X\",\"black\":\"earth\",\"setup\":{\"controls\":{\"S1\":\"1\"},\"apart\":[],\"stand_in\"
:{}},\"value\":0.0,\"choice\":\"\",\"typed\":\"0 V\",\"complaint\":\"present\",\"shown\":{\"goal
\":\"Does the feed reach way \",\"do\":\"Back-probe way , wire side. Black lead on clean metal o
f the body.\",\"low\":0.0,\"high\":2.0,\"unit\":\"V\",\"outcomes\":[[\"About 0 V\",\"Points t
o . Clears 1.\"],[\"Near supply voltage\",\"Points to . Clears 3.\"]],\"verdict\":\"below the ba
nd\",\"release\":\"0.1.0\"}}"}""".replace("\n", "")
