"""Plain words that the reading of talk leans on; none of them is for the record.

Phrases with a meaning of their own are data (`grammar/talk.toml`); these only steady the
reading of what stands beside them.
"""

from __future__ import annotations

from typing import Final

from saywright.understanding.tokens import BREAK, words_of

# Too common in bench talk to stand for a part by themselves.
TOO_COMMON: Final = words_of(
    "air fuel oil water brake engine inlet outlet lower upper inner outer front rear left right main top "
    "bottom side low high slow small big long short drive seal set end face hand line throttle valve "
    "cover plate pump stop full size open out in down up back off on through"
)

# Stuffs, and machines: at the head of a name they tell what it is for, and do not stand for it.
STUFFS: Final = words_of(
    "fluid grease petrol gas diesel coolant steam vacuum dust dirt jack carb carburetor carburettor motor "
    "compressor bike car boat tractor mower chainsaw saw trimmer gearbox machine"
)

# What holds another part.
FASTENERS: Final = words_of("nut nuts bolt bolts screw screws stud studs clip clips")

# What closes a thing, and goes back on over what was renewed in it.
CLOSERS: Final = words_of("cover cap lid bowl bonnet housing casing body")

# Where a finished job goes back to.
MACHINES: Final = words_of(
    "engine bike car boat tractor mower saw chainsaw trimmer machine truck van trailer kart generator "
    "outboard quad scooter lorry digger loader block"
)

# Of those, nouns that stand for a part where they end its name: "the cover's off" for the pump cover.
ENDS_NAME: Final = words_of("cover plate pump valve seal line")

# Of those, words that tell parts of a kind apart; "main" is the main jet where a noun would stand.
BEGINS_NAME: Final = words_of("main low high slow")

# Stand behind a verb, or apart from it behind its object.
PARTICLES: Final = words_of("off out in on back up down over through again apart")

# Begin the name of a doing that is a place: "in the dip", "on order".
PREPOSITIONS: Final = words_of("in on for through into to onto")

# Verbs of movement that take what was moved as their object.
TRANSITIVE: Final = words_of(
    "removed remove removing pulled pulling pull pulls take takes taking took taken lift lifted lifting "
    "unscrew unscrewed unscrewing undo undid undone undoing unbolted unbolting unclipped unhooked "
    "disconnected extracted drew drawn fitted fit fitting refit refitted refitting install installed "
    "installing reinstall reinstalled reinstalling put putting screwed screwing pressed tapped pushed "
    "pushing slid sliding mounted assembled bolted threaded clipped reconnected wound lowered placed "
    "dropped popped teased prised pried backed snapped hooked knocked fished grab grabbed"
)

# Behind "the last" or "another": no thing that could be on another bench.
NO_OTHER_THING: Final = words_of(
    "side end way hand thing bit half face edge corner step turn time two three pair few couple lot down "
    "up along here only but though"
)

# Words that lead away from no part: talk around a number that may still be its value.
NEUTRAL: Final = words_of(
    "i we me us you there here inside underneath outside about just still only now again actually exactly "
    "too then so well up down right good okay think reckon say guess call makes getting am do does did "
    "see can found find got feel steady like much very over thick wide long deep high across size number "
    "and which"
)

# Who works while another dictates: "he's pulling the left one"; and no noun before a verb.
HELPER: Final = words_of("he she")
NO_NOUN: Final = NEUTRAL | HELPER

# English too plain to be a part's name heard wrong.
PLAIN: Final = words_of(
    "i me we you he she they us either go goes going went get gets got come comes "
    "came do does did know think see look take here there where when how "
    "why what which who lucky now just only still again about like want put make made right left good way "
    "thing time come give keep try let say said tell down more than because some any much many most few "
    "little big small long short first last next same other own too very can could will would shall should "
    "may might must been being am as at by if or so up number plate glass black white brown green "
    "block blocks sparing sparingly spit hung hold whole grip flip flipped flips build bank list tweak "
    "keeps keeping rated bring brings bringing fetch link links skirt life lock locks locked locking pivot "
    "pivots pivoted halves please cheers thanks thank ta sorry couple sucker suckers stopping stopped blade "
    "throw thrown boiled boiling kettle greasy rides ride ridden paste adjustable spanner stainless brass "
    "overnight drilling drillings passage passages gallery galleries"
)

# The speaker, and what he is or goes: "I'm out of split pins", "I'm off home".
SPEAKER_IS: Final = frozenset({("i", "am"), ("we", "are")})

# Places in a workshop: what goes there is not fitted.
WORKSHOP: Final = words_of(
    "bin basket dip bath tank vice vise press box bag bucket tray oven freezer drawer washer ultrasonic "
    "solvent order list lathe bench fridge shelf scrap skip tub pot jar mill cabinet pile cupboard stand "
    "jig rack cleaner thinners dunk paraffin petrol diesel vinegar"
)

# Things around a bench that are no part on it.
ELSEWHERE: Final = words_of(
    "floor rag rags hand hands glove gloves weather light lights radio coffee tea van truck shop door window "
    "customer boss kid job day place roof phone pen book tool tools apprentice lad "
    "glasses specs eyes eyesight ears kettle doorbell dog telly"
)

# How a thing is, or was.
IS: Final = words_of("is are was were")

# "X too": the same holds of it.
TOO: Final = frozenset({("too",), ("as", "well"), ("also",)})

# Who did it, where it was nobody on this job.
SOMEBODY: Final = words_of("somebody someone nobody")

# What the speaker has on him, or by him: no part of another job.
ON_THE_SPEAKER: Final = words_of(
    "glasses specs spectacles readers foot hand thumb eye nail fingernail finger fingers thumbnail ear nose "
    "torch lamp rag pick scriber magnet thumbs eyes nails knuckles knuckle back knees arms arm leg legs neck "
    "shoulder wrist elbow "
    "pencil pen phone tea coffee lunch dinner"
)

# What is switched off and on; nothing is taken off there.
SWITCHED: Final = words_of(
    "tap taps fuel gas water supply power mains electric electrics electricity current ignition heating "
    "engine motor"
)

# What is in a part, and is none.
FLUIDS: Final = words_of("oil fuel petrol grease water fluid coolant diesel")

# What is put on a part, by its last word: "copper slip", "anti seize", "thread lock".
LUBRICANTS: Final = words_of("grease oil lube lubricant slip vaseline seize")
SEALANTS: Final = words_of("loctite threadlock threadlocker sealant sealer compound lock locker")

# Parts that any bench has: with what holds one named behind it, it is not the holder.
PART_NOUNS: Final = words_of(
    "seal seals washer washers spring springs screw screws bolt bolts nut nuts stud studs clip clips "
    "circlip circlips pin pins gasket gaskets bearing bearings bush bushes bushing bushings ring rings "
    "rivet rivets hose hoses pipe pipes cap caps plug plugs cover covers valve valves"
)

# What other parts sit on or in: named alone, none of them.
HOLDERS: Final = words_of(
    "shaft shafts piston pistons cylinder cylinders rod rods gear gears wheel wheels body head heads housing "
    "case crank motor engine frame tank drum drums disc discs lever arm axle hub"
)

# Places that every part has: what is found there is found on the part in hand.
PLACES_ON_IT: Final = words_of(
    "edge edges face faces lip rim side sides end ends top bottom middle centre center inside outside "
    "surface thread threads bore tip corner corners shoulder skirt crown root neck base "
    "paint finish shank head wall walls groove grooves way area spot spots hole holes back front upper "
    "lower part one ones place places whole lot same length"
)

# Where it is written, or who made it: "the book says nine", "drawings say nine".
SOURCES: Final = words_of(
    "card cards sheet sheets book books manual manuals handbook handbooks maker makers manufacturer "
    "manufacturers chart charts table tables leaflet paperwork papers instructions dealer dealers agent "
    "agents supplier suppliers internet website forum forums factory notes plate plates nameplate label "
    "sticker drawing drawings catalogue catalogues spec specs"
)

# "a touch more", "a hair under": a little of it.
LITTLE: Final = words_of("bit touch hair fraction shade whisker tad smidge smidgen little")

# Words that a letter sounds like, where a part is called by a letter.
LETTERS: Final = {
    "be": "b", "bee": "b", "see": "c", "sea": "c", "tea": "t", "tee": "t", "pea": "p", "pee": "p",
    "are": "r", "you": "u", "why": "y", "jay": "j", "kay": "k", "gee": "g", "eye": "i", "ex": "x",
    "queue": "q", "cue": "q", "eh": "a", "hey": "a", "ell": "l", "em": "m", "en": "n", "dee": "d",
}  # fmt: skip

# Between a count and its noun: "four little screws".
SIZE_WORDS: Final = words_of("little small tiny big long short wee more")  # "two more washers"

# What may stand around the numbers of a count.
COUNT_TALK: Final = words_of(
    "that is it and makes side seated bottomed lightly gently home now so there the out from stops stop "
    "turns turn uh um okay right all way in down on its seat we are just touches then to "
    "she he her him seats bottoms stopping"
) | {BREAK}

# How it is tightened or turned; tells of no other thing.
MANNERS: Final = words_of(
    "crosswise crossways diagonally crisscross alternately evenly gradually progressively carefully gently "
    "nicely lightly firmly slowly properly working corner cross pattern"
)

# What is left is done with.
FINISHED: Final = words_of("done finished complete completed apart stripped sorted")
# Opens what is found, and is no value of anything: "there are two".
THERE_ARE: Final = frozenset({("there", "is"), ("there", "are"), ("there", "was"), ("there", "were")})
# Between a value and what it was read at.
READ_AT: Final = words_of("in on for at")

# Past forms that do not end in -ed.
PAST: Final = words_of(
    "bled blown blew broke broken bent cut set put done did gone made given gave taken took torn worn "
    "drawn drew driven drove thrown threw bought brought sent swapped found held kept left lost meant "
    "reset rebuilt redone undone ground swept wound shut spun sprung struck stuck swung"
)

# Nouns that are no form of the condition they look like: a block is not blocked.
OTHER_NOUNS: Final = words_of(
    "block blocks blue plug plugs seal seals seat seats strip strips stick stuck "
    "catch caught hang bind grease sponge stand"
)

# Between a place on a part and the number read there.
PLACE_BETWEEN: Final = words_of(
    "uh um er erm ah is it its i get got getting reads reading read measures measured says comes to we have "
    "and then that makes a on at in the call about just under over was were again now"
) | {BREAK}

# Around a place whose number comes in the next breath.
PLACE_TALK: Final = PLACE_BETWEEN | words_of("now next okay right so here take check measure measuring me us")
# Behind "the left" or "both of them", and no noun that they belong to.
NOT_ITS_NOUN: Final = words_of("which who there here now then too again please look")
# A word of talk or a place that every part has: no noun that would name a part.
NO_NAME: Final = NEUTRAL | PLACES_ON_IT
AWAY: Final = WORKSHOP | ELSEWHERE  # where nothing of the job is
