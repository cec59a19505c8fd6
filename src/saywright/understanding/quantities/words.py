"""The words around numbers: hedges, signs, pronouns, and spoken units that mean several."""

from __future__ import annotations

from typing import Final, Literal


def _phrases(text: str) -> frozenset[tuple[str, ...]]:
    return frozenset(tuple(phrase.split()) for phrase in text.split(","))


def _words(text: str) -> frozenset[str]:
    return frozenset(text.split(","))


# Before a number: it is no exact reading.
HEDGES_BEFORE: Final = _phrases(
    "about,around,round about,somewhere round,somewhere about,somewhere between,more like,"
    "roughly,approximately,approx,nearly,almost,maybe,perhaps,probably,say,ish,"
    "just under,just over,just about,just shy of,shy of,a bit over,a bit under,bit over,bit under,"
    "a little over,a little under,a touch over,a touch under,a hair over,a hair under,"
    "a shade over,a shade under,slightly over,slightly under,well over,well under,under,over,"
    "below,above,more than,less than,at least,at most,up to,close to,near,near enough,"
    "let us say,getting on for,somewhere around,somewhere near,some were round,something like,call it,"
    "i think,i guess,looks like,nearer,nearer to,closer to,sort of,kind of,not quite,a good,a bit more than,"
    "a bit less than,in the region of,on the order of,coming up on,best part of,the best part of"
)
# Before "round", where it is "about": not "a quarter turn round one point oh four".
BEFORE_ROUND: Final = _words("is,are,was,were,at,be,get,got,reads,says,it,them,somewhere,measures,makes,made")
# Behind a number or its unit.
HEDGES_AFTER: Final = _phrases(
    "ish,or so,or thereabouts,thereabouts,or thereabout,or something,something,give or take,"
    "and a bit,and a bit more,and a hair,and a hair more,and a touch,and a shade,and a whisker,and a tad,"
    "and a smidge,and a smidgen,"
    "and change,and something,odd,near enough,roughly,approximately,"
    "more or less,i think,i guess,maybe,or less,or more,or better,or under,or over,bit over,"
    "a bit over,bit under,a bit under"
)
# Behind a number only where the clause ends there; else they are of what comes next.
HEDGES_AT_END: Final = _phrases(
    "nearly,almost,about,just about,all but,if that,just under,just over,just shy,near as damn it,"
    "a touch under,a touch over,a shade under,a shade over,a hair under,a hair over,a whisker under,"
    "a whisker over,a tad under,a tad over,a little under,a little over,not quite,or near it,or near enough"
)
# Behind a number too: and nothing over.
EXACT_AFTER: Final = tuple(
    sorted(
        _phrases(
            "dead,dead on,bang on,spot on,smack on,on the nose,on the button,on the dot,to the dot,exactly,"
            "precisely,even,on the money,dead right,near perfect,on the mark"
        ),
        key=lambda said: -len(said),
    )
)
LONGEST_HEDGE: Final = 4

SIGNS_AFTER: Final[dict[str, Literal["over", "under"]]] = {
    "over": "over",
    "oversize": "over",
    "oversized": "over",
    "under": "under",
    "undersize": "under",
    "undersized": "under",
}

# "this one", "that one": a thing, whatever follows.
POINTING: Final = _words("this,that,which,no,any,every,each,either,neither")
# "the left one", "the old one": a thing, unless a number begins there.
DESCRIBING: Final = _words(
    "another,other,left,right,old,new,good,bad,first,second,third,fourth,last,next,"
    "same,big,bigger,small,smaller,large,larger,long,longer,short,shorter,inner,outer,"
    "upper,lower,top,bottom,front,rear,back,middle,inside,outside,worn,bent,broken,"
    "spare,wrong,correct,proper,original,replacement,clean,dirty,damaged,final,loose,"
    "tight"
)
# Of these a thing may be called without its "one": "the left", "the other".
PLACES: Final = _words(
    "another,other,left,right,first,second,third,fourth,last,next,inner,outer,upper,lower,top,bottom,front,"
    "rear,back,middle,inside,outside"
)
# "the ugly one", "a nice one": so only behind a word like "the".
JUDGING: Final = _words(
    "ugly,nasty,manky,horrible,awful,dreadful,shocking,nice,lovely,pretty,rough,smooth,thin,thinner,thick,thicker,"
    "fat,fatter,tired,sorry,sad,poor,dodgy,suspect,shiny,rusty,sticky,stiff,stiffer,tidy,odd,funny,fresh,far,near,"
    "further,nearer,noisy,leaky,wet,dry,sound,healthy,naughty,lazy,little,high,higher,low,lower,easy,hard,soft,"
    "better,worse,deep,deeper,narrow,wide,wider,heavy,heavier,light,lighter,fine,great,brilliant,perfect,decent,"
    "mint,free,unlucky,lucky,guilty,offending,bloody,terrible,scabby,grotty,filthy,crooked,sick,strange,weird"
)
# "the worst one": one of several, and what follows is read on it.
PICKED: Final = _words(
    "worst,best,highest,lowest,thinnest,thickest,biggest,smallest,largest,longest,shortest,tightest,loosest"
)
DETERMINERS: Final = _words("the,this,that,a,an,another,these,those,my,his,our,their,its,your")
# Behind "one": it is the subject of a sentence, or part of a phrase.
AFTER_PRONOUN: Final = _words(
    "of,more,another,is,was,has,had,looks,looked,needs,isn't,isnt,wasn't,wasnt,hasn't,hasnt,"
    "thing,day,by,who,that,which,where"
)
# Before "point": a moment or a place, no decimal point.
POINT_NOUN: Final = _words("this,that,some,which,what,any,every,no,low,high,starting,end")
# "the other half", "half of them".
HALF_NOUN: Final = _words(
    "the,other,top,bottom,upper,lower,left,right,this,that,first,second,each,both,"
    "either,case,front,rear,inner,outer,back"
)

# "half full", "half past", "half the teeth".
HALF_STATE: Final = _words("of,the,full,worn,past,way,open,closed,shut,empty,gone,round,through,off,done")

# Spoken names with meanings that the unit table has under other names.
MORE_UNITS: Final[dict[str, tuple[str, ...]]] = {
    "ounce": ("oz", "foz_us"),
    "ounces": ("oz", "foz_us"),
    "pound": ("lb", "lbf", "psi", "lbf.in", "lbf.ft"),
    "pounds": ("lb", "lbf", "psi", "lbf.in", "lbf.ft"),
    "degree": ("deg", "degC", "degF"),
    "degrees": ("deg", "degC", "degF"),
}
# "a turn", "a thou": one of these, where "a foot" or "a minute" is a manner of speaking.
COUNTED_BY_ARTICLE: Final = frozenset({"turn", "thou", "mm", "in", "bar"})
# A unit said before its number: "turns out: one and a half".
LEADING_UNITS: Final = frozenset({"turn"})
# Between a determiner and "one" these say that a value follows.
VALUE_FOLLOWS: Final = _words(
    "is,was,reads,read,at,of,to,by,says,shows,measures,number,size,comes,came,got,get,about,just,only,and,or,a"
)
# Right before "one" these make it a value, whatever follows.
VALUE_VERBS: Final = _words("is,was,reads,read,at,says,shows,measures,number,size")

# Heard for "point" and for "and" between the parts of a number.
LIKE_POINT: Final = _words("boy,boys,points,pointed,pint,coin,joint,paint")
LIKE_AND: Final = _words("in,an,end,on,than,then,and")
HESITATIONS: Final = _words("uh,um,er,erm,and")
