"""Plain words of every day. They join what an angler says round a thing's name, and none of them is a slip
of the pen for a word of the trade: "off" is no "offset", "like" no "line"."""

# Words that join others: where one of them stands, something is told and not named.
JOINING = frozenset(
    "a an the and but or so as if than then that this these those which who whose what when where while "
    "because cos coz since till until of off from to for with without in into on onto at by up down out "
    "over under about after before between through against along across behind beside near round "
    "i me my mine we us our ours you your yours he him his she her hers it its they them their theirs "
    "is are am was were be been being has have had having do does did done doing can could will would "
    "shall should may might must dont doesnt didnt isnt arent wasnt wont cant couldnt wouldnt aint "
    "not no never nor nothing none nobody some any every all both each other another same such one ones "
    "only just very too quite really rather still yet already again always often ever".split()
)
_OTHERS = frozenset(
    "like likes liked look looks looked looking lookin see seen saw say says said know knows knew think "
    "thought get gets got gone going go goes went come comes came take takes took make makes made mind "
    "keep keeps kept put puts use uses used want wants need needs try tried buy bought sell sold give gave "
    "given find found lose lost leave left let lets bring brought hold holds held turn turns turned catch "
    "caught cost paid pay stick stuck sits sit sat swear swears bend bends bent break breaks broke broken "
    "fall falls fell feel feels felt pick picked chuck chucked chucking nicked mended repaired painted "
    "repainted chewed rubbed rubs faded marked cracked chipped snapped missing peeling rusty wonky loose "
    "stiff dodgy iffy tatty scruffy manky knackered battered mint decent proper posh fancy cheap dear best "
    "better worst worse good bad lovely nice handy useful useless brilliant perfect grand super rubbish "
    "late early soon long ago now today tomorrow yesterday week weeks month months year years day days "
    "time times season seasons morning night evening spring autumn cold warm wet windy rough calm deep "
    "far close big little wee old new young last next first own spare enough plenty lots load loads bit "
    "bits few couple pair half rest whole lot ok okay fine alright right wrong sure easy hard "
    "mate mates lad lads bloke blokes chap fella missus wife husband dad dads mum brother son daughter "
    "kid kids grandad uncle nephew neighbour club match league open cup winter summer team pal captain "
    "stock shop shops market stall sale bargain bin shelf table fair show boot auction online counter garage "
    "mile miles shed loft van "
    "car boat bank pond lake reservoir water stretch peg pegs swim far island bridge lock "
    "town end side edge weed weeds snags reeds lilies cut bush tree trees willow willows house home "
    "fish fishes fishing ones barbel eels tench rudd tail head eye top bottom middle heck eck bloody "
    "bloomin blooming flippin honest guess suppose reckon hope wish please thanks cheers ta aye well "
    "idea job stuff thing things sort kind way back front name label box tin bag drawer pocket tray lid "
    "free swap swapped gift present birthday christmas prize raffle won given leftover oddments bits "
    "took once twice thrice anyway though maybe perhaps probably apparently actually sadly luckily".split()
)
EVERYDAY = JOINING | _OTHERS
