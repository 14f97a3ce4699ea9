package org.wearledger.model;

import java.util.EnumSet;
import java.util.Set;

/** What a value of a problem stands for. Values are kept as plain text: digits, times of ISO 8601, names. */
public enum Fact {
    /** What the input says, word for word, perhaps cut. */
    TEXT,
    /** What may have been meant. */
    NEAR,
    /** Names that the input has, and those of them that nothing is read from. */
    MET, NOT_USED,

    /** What the fault is of, and has in common with its like: a counter as health names it, units, a rule, machines, drives and other names. */
    SLIP, ADVICE, NOTHING, MAPPED, REMAINING, FORMAT, EXAMPLE, ROUNDED, ZONE, ONE_DIGIT,
    COUNTER, UNIT, OTHER_UNIT, RULE, MACHINE, MACHINE_BEFORE, DRIVE, NAMES, CURRENCY, USUAL_CURRENCY, HIDDEN,

    /** Figures. {@link #OF} is all, of which some are counted; {@link #UNREAD} below zero where nobody can tell how many records were not reached. */
    VALUE, BEFORE, AFTER, LEAST, MOST, COUNT, OF, UNREAD, RATIO, BITS, HOURS, COMMANDS, READ, READ_BEFORE, WRITTEN, WRITTEN_BEFORE, USED_PERCENT, USED_PERCENT_BEFORE,
    /** Sizes; {@link #ODD_CAPACITY_BYTES} is one that no client machine has. */
    BYTES, MEBIBYTES, GIGABYTES, CAPACITY_BYTES, ODD_CAPACITY_BYTES,
    /** Times, and places as {@link SourcePlace#inWords} has them. */
    AT, SINCE, UNTIL, DATE_PART, LINE, COLUMN, PLACE, NEXT_PLACE;

    private static final Set<Fact> QUOTED = EnumSet.range(TEXT, NOT_USED);
    private static final Set<Fact> NAMING = EnumSet.range(SLIP, HIDDEN);

    /** Whether it may hold anything that stands in the input, a name too. */
    public boolean isQuoted() {
        return QUOTED.contains(this);
    }

    /** Whether it differs from one line of a file to the next, though the fault is the same. */
    public boolean isOfOneLine() {
        return !NAMING.contains(this);
    }
}
