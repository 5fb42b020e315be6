"""Small parts by what anglers call them: each with the forms in which it is said.

All of it is common practice.
"""

from collections.abc import Mapping

PARTS: Mapping[str, str] = {
    "swivel": "swivel, barrel swivel, ball swivel, ball bearing swivel, "
    "ledger swivel, leger swivel, crane swivel, diamond eye swivel",
    "rolling swivel": "rolling swivel, roller swivel, rolling",
    "three-way swivel": "threeway swivel, threeway barrel swivel",
    "link swivel": "link swivel, feeder link swivel, snap swivel, swivel link, clip swivel, "
    "swivel with link, "
    "swivel snap, "
    "snap link swivel, snap link with swivel, link with swivel, "
    "clip with swivel, link ledger swivel, link leger swivel, buckle swivel, cross lock swivel, "
    "swivel with snap",
    "snap link": "snap link, snap, link clip, snap lock, clip link, cross lock snap, cross lock, "
    "duo lock snap, duo lock",
    "quick-change bead": "quick change bead, quick change link bead, "
    "quick change feeder bead, quickchange, quick change",
    "ledger bead": "ledger bead, leger bead, legering bead, ledgering bead",
    "feeder bead": "feeder bead",
    "rubber bead": "rubber bead, soft bead",
    "buffer bead": "buffer bead, shock bead, buffer",
    "tulip bead": "tulip bead",
    "puller bead": "puller bead, pulla bead, pole puller bead, side puller bead",
    "link bead": "link bead",
    "snap bead": "snap bead",
    "paternoster bead": "paternoster bead",
    "bead": "bead, plastic bead",
    "float stop": "float stop, sliding float stop, sliding stop, slider stop, rubber stop, "
    "rubber float stop, stopper, rubber stopper",
    "line stop": "line stop, power gum stop, gum stop, stop knot",
    "stop bead": "stop bead",
    "ledger stop": "ledger stop, leger stop, ledgering stop, legering stop",
    "hair stop": "hair stop, boilie stop, hair rig stop, bait stop, meat stop, corn stop",
    "push stop": "push stop, pushstop, quick stop, quickstop",
    "bait spike": "bait spike, bait bayonet, spike, bayonet, bait spear",
    "bait screw": "bait screw",
    "rig ring": "rig ring",
    "split ring": "split ring",
    "bait band": "bait band, pellet band, latex bait band, latex band, silicone bait band, "
    "hair rig band, banding band",
    "run ring": "run ring, running ring, ledger ring, leger ring",
    "ring": "ring",
    "tail rubber": "tail rubber, tail cone, cone tail rubber, lead clip tail rubber",
    "float rubber": "waggler rubber, float rubber, silicone float rubber, pole rubber, pole float rubber, "
    "float cap, float band",
    "silicone tube": "silicone tube, silicone tubing, silicon tube, silicon tubing, silicone, "
    "float silicone, pole silicone, silicone sleeve, silicone rubber, silicon rubber, silicon",
    "float bristle": "float bristle",
    "whipping thread": "whipping thread, whipping silk",
    "end cap": "end cap, feeder end cap, feeder cap",
    "bait dropper": "bait dropper",
    "maggot clip": "maggot clip, bait clip",
    "putty": "putty, tungsten putty, rig putty, heavy putty, weight putty",
    "shrink tube": "shrink tube, shrink tubing, heat shrink",
    "line aligner": "line aligner, aligner",
    "quick link": "quick link, speed link, quick change clip, quick change link",
    "quick-change swivel": "quick change swivel, quick change feeder swivel",
    "lead clip": "lead clip, bomb clip, safety clip",
    "line clip": "line clip",
    "helicopter bead": "helicopter bead",
    "tube": "tube, tubing, rig tube, rig tubing",
    "feeder link": "feeder link, ledger link, leger link, swivel feeder link",
    "twisted boom": "twisted boom, twisted feeder boom, twizzle boom",
    "feeder arm": "feeder arm",
    "feeder stem": "feeder stem, in line feeder stem, inline feeder stem, in line stem, inline stem",
    "boom": "boom, link boom, swivel boom, bomb boom, feeder boom, ledger boom, leger boom, anti tangle boom",
    "anti-tangle sleeve": "anti tangle sleeve, anti tangle, tangle sleeve",
    "sleeve": "sleeve, tail sleeve, tail rubber sleeve",
    "connector": "connector, pole connector, elastic connector, rig connector, "
    "pole elastic connector",
    "puller bung": "puller bung, pulla bung, side puller bung",
    "bung": "bung, pole bung, elastic bung, bung and hook, bung with hook, bung and extractor",
    "bush": "puller kit bush, puller bush, side puller bush, "
    "bush, ptfe, ptfe bush, pole bush, bushes, tip bush, elastic bush",
    "crimp": "crimp, crimp sleeve, crimping sleeve",
    "adaptor": "adaptor, adapter, float adaptor, float adapter, waggler adaptor, waggler adapter, "
    "float attachment, waggler attachment, quick change float adaptor, quick change float adapter, "
    "quick change waggler adaptor, silicone float adaptor, silicone float adapter, silicone adaptor, "
    "silicone adapter, swivel float adaptor, swivel float adapter, swivelled float adaptor, "
    "swivel adaptor, swivel adapter, swivelled adaptor",
    "plummet": "plummet, plumb",
    "winder anchor": "winder anchor, anchor, rig anchor, winder band",
    "pole pot": "pole pot, cad pot, toss pot, pole cup, feeding pot",
    **{f"pva {one}": f"pva {one}" for one in ("bag", "string", "mesh", "tape")},
    "lead wire": "lead wire, leadwire",
    "disgorger": "disgorger, hook disgorger, hook remover",
    "baiting needle": "baiting needle, bait needle, boilie needle, hair needle, quickstop needle, "
    "push stop needle, pushing tool, push tool",
    "bander": "bander, bait bander, pellet bander, banding tool, band tool",
    "hook tyer": "hook tyer, hook tier",
    "threader": "threader, diamond eye threader, elastic threader, pole threader",
    "puller kit": "puller kit, side puller kit, side puller",
    "bung extractor": "bung extractor, extractor, extractor tool",
    "method mould": "method mould, feeder mould, mould",
    "winder box": "winder box, winder tray, rig box, rig tray, winder boxes",
    "tackle box": "tackle box, hook box, bait box, float box, feeder box, shot box, accessory box",
    "hooklength box": "hook wallet, hooklength wallet, hook length wallet, rig wallet, "
    "hooklength box, "
    "hook length box, hooklink box, hooklength boxes, hook length boxes",
}
