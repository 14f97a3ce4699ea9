package org.wearledger.report;

import org.wearledger.model.ProblemKind;

/** One line of plain words per rule; the switch has no default so that a new rule cannot go unexplained. */
final class RuleMeaning {
    private RuleMeaning() {
    }

    static String of(ProblemKind kind) {
        return switch (kind) {
            case FILE_EMPTY -> "the file has no content";
            case FILE_UNREADABLE -> "the file could not be opened or read";
            case FILE_FORMAT_UNKNOWN -> "the file is in none of the formats that are read";
            case FILE_HAS_NO_READING -> "the file was read but held no usable reading";
            case FILE_READ_IN_PART -> "some records of the file were not reached behind a fault; the line says about how many";
            case FORMAT_DIFFERS_FROM_ENDING -> "the content is of another format than the file's ending says; the "
                + "content counts";
            case BROKEN_JSON -> "a JSON record is cut off or malformed";
            case BROKEN_CSV -> "a CSV record is cut off or malformed";
            case BROKEN_COMPRESSION -> "compressed content is cut off or damaged";
            case FIELD_MISSING -> "a field that every record needs is missing";
            case FIELD_INVALID -> "a field that a verdict rests on has a value that cannot be";
            case NUMBER_MANGLED -> "a number that a verdict rests on was changed on its way, as a spreadsheet does: digits lost, grouped or "
                + "with a decimal comma";
            case COUNTER_NEGATIVE -> "a counter that a verdict rests on is below zero, which no counter can be";
            case DATE_AMBIGUOUS -> "the report's date may be read day first or month first";
            case SCHEMA_VERSION_UNKNOWN -> "the record names a version of the report form that is not known";
            case LOG_PAGE_INVALID -> "a raw log page has the wrong length or content that cannot be";
            case LOG_PAGE_WITHOUT_DATA -> "a raw log page is all zeros or all ones: the drive gave no data";
            case OPTIONAL_FIELD_INVALID -> "an optional field has a value that cannot be and is taken as not reported";
            case HIDDEN_CHARACTERS -> "a name holds characters that cannot be seen; they are taken out";
            case LOCAL_TIME_TWICE -> "a local time that came twice, as clocks were put back; the earlier is taken";
            case PERCENTAGE_REMAINING_BELOW_ZERO -> "a mapped life remaining is below zero, as some controllers count on; it is read as more than 100 percent used";
            case TEMPERATURE_IMPLAUSIBLE -> "a temperature that no drive has; it is taken as not reported";
            case POWER_ON_HOURS_IMPLAUSIBLE -> "more power-on hours than have passed since 2011; they are taken as not reported";
            case FIELD_UNKNOWN -> "a field of an unknown name is not used; a misspelt name is the usual cause";
            case MAPPED_FIELD_ABSENT -> "the mapping names a heading or pointer that a file does not have; a slip is the usual cause";
            case COLUMN_MISSING -> "the newest reports lack a mapped field that standings are decided by, or earlier ones lack what the newest have; the line says what to do";
            case MEMORY_UNIT_DOUBTFUL -> "every memory size of a file is a whole number of GB and none of GiB; GB for GiB, in the mapping or the export, is the usual cause";
            case HEALTH_GIVEN_TWICE -> "a record gives the counters both as fields and as a raw log page; the "
                + "page counts";
            case DUPLICATE_IDENTICAL -> "the same reading came more than once; one copy is kept";
            case DUPLICATE_CONFLICTING -> "readings of one drive at one moment contradict each other";
            case SERIAL_PLACEHOLDER -> "the serial number is a filler that many drives share, so it names no drive";
            case SERIAL_SHARED -> "one serial number came from several machines at once, so it names no single drive";
            case COLLECTED_IN_FUTURE -> "the report's time lies in the future; check that machine's clock";
            case COLLECTED_AFTER_AS_OF -> "the report is later than the as-of date asked for";
            case COUNTER_IMPOSSIBLE -> "more data units written than any link has carried since 2011";
            case READ_WRITTEN_EXCHANGED -> "the counters of reads and writes have changed places";
            case READING_OUT_OF_ORDER -> "the counters lie behind those of an earlier report, and a later one goes on from there: a wrong clock";
            case UNIT_CHANGED -> "the write counter is given in another unit than in the drive's other reports";
            case IMPLAUSIBLE_INCREASE -> "the write counter grew by more than 20 writes of the capacity a day";
            case COUNTER_OUT_OF_LINE -> "bytes written stand above or below those of the reports on both sides; a digit, a date or a stale copy";
            case FALL_DOUBTFUL -> "bytes written fell, and nothing shows a reset; the largest figure stands";
            case RESET_UNCONFIRMED -> "bytes written fell to near zero, and no hours confirm a reset; both runs are added";
            case INCREASE_DOUBTFUL -> "bytes written rose far faster than the drive ever wrote; a digit, a unit or a date";
            case MEASURES_PARTED -> "bytes written and percentage used grew together before, and no longer do";
            case COLUMN_DOUBTFUL -> "bytes written of many drives fell, or jumped by one ratio, in the same reports; a unit or column changed";
            case CAPACITY_DOUBTFUL -> "the capacity changed, or its unit looks wrong; the rating follows the capacity";
            case NO_REPORT_BELIEVED -> "bytes written in every report of the drive could not be believed: nothing is said of its wear";
            case LATEST_REPORT_SET_ASIDE -> "bytes written in the drive's latest report could not be believed: its figures are older than what arrived";
            case COUNTER_WENT_BACK -> "a counter fell; a new counter epoch begins and earlier writes are added";
            case COUNTER_TRUNCATED -> "a counter ran into the end of 8, 16, 32, 63 or 64 bits, so its true value may be higher";
            case COUNTER_DOUBTFUL -> "a counter beside the verdict is higher than any drive can count";
            case DRIVE_MOVED -> "the drive was seen in another machine before; its history goes with it";
            case DRIVE_REPLACED -> "the machine reports another drive than before";
            case UNITS_DOUBTFUL -> "the figure looks as if it were given in another unit";
            case WRITTEN_CONTRADICTS_USED -> "bytes written and percentage used cannot both be right; a wrong unit is the usual cause";
            case PERCENTAGE_USED_AT_LIMIT -> "percentage used is 255, the most its byte holds; the true figure may be higher";
            case PERCENTAGE_USED_FELL -> "percentage used fell while the drive was written; life remaining, given as used, is the usual cause";
            case CLOCK_DOUBTFUL -> "power-on hours rose by more than the time between two reports";
            case SERIAL_ZEROS_LOST -> "two serial numbers of one machine differ by leading zeros only, as after a spreadsheet";
            case SERIAL_UNDER_MODELS -> "one serial number stands under several drive models";
            case COUNTERS_REPEATED -> "several drives report the very same counters: one page reported more than once";
            case SIDE_TABLE_ROW_INVALID -> "a row of a side table cannot be used";
            case SIDE_TABLE_FIELD_INVALID -> "an optional date or size of memory in a side table cannot be and is taken as unknown";
            case PRICE_CURRENCY_DIFFERS -> "a price is in another currency than most and is not used";
            case PRICE_ITEM_UNKNOWN -> "a price is for an item that no machine can call for and is not used";
            case SIDE_TABLE_ROW_REPEATED -> "a side table gives the same key twice";
            case MEMORY_DIFFERS -> "report and inventory give a machine memory of different sizes; the report's counts";
            case RATING_ASSUMED -> "no ratings row fits the drive; the rule of thumb stands in (assumed)";
        };
    }
}
