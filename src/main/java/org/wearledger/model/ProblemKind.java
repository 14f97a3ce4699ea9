package org.wearledger.model;

import java.util.List;
import java.util.Locale;

/** The rules by name. {@link #id()} is what the problems output prints, such as {@code counter-went-back}. */
public enum ProblemKind {
    FILE_EMPTY(Effect.FILE_REFUSED),
    FILE_UNREADABLE(Effect.FILE_REFUSED),
    FILE_FORMAT_UNKNOWN(Effect.FILE_REFUSED),
    FILE_HAS_NO_READING(Effect.FILE_REFUSED),
    LOG_PAGE_WITHOUT_RECORD(Effect.FILE_REFUSED),
    FILE_READ_IN_PART(Effect.FILE_READ_IN_PART),
    FORMAT_DIFFERS_FROM_ENDING(Effect.NOTED),

    BROKEN_JSON(Effect.RECORD_REFUSED),
    BROKEN_CSV(Effect.RECORD_REFUSED),
    BROKEN_COMPRESSION(Effect.RECORD_REFUSED),
    FIELD_MISSING(Effect.RECORD_REFUSED),
    FIELD_INVALID(Effect.RECORD_REFUSED),
    NUMBER_MANGLED(Effect.RECORD_REFUSED),
    COUNTER_NEGATIVE(Effect.RECORD_REFUSED),
    DATE_AMBIGUOUS(Effect.RECORD_REFUSED),
    SCHEMA_VERSION_UNKNOWN(Effect.RECORD_REFUSED),
    LOG_PAGE_INVALID(Effect.RECORD_REFUSED),
    LOG_PAGE_WITHOUT_DATA(Effect.RECORD_REFUSED),
    OPTIONAL_FIELD_INVALID(Effect.NOTED),
    HIDDEN_CHARACTERS(Effect.NOTED),
    LOCAL_TIME_TWICE(Effect.NOTED),
    PERCENTAGE_REMAINING_BELOW_ZERO(Effect.NOTED),
    TEMPERATURE_IMPLAUSIBLE(Effect.NOTED),
    POWER_ON_HOURS_IMPLAUSIBLE(Effect.NOTED),
    FIELD_UNKNOWN(Effect.NOTED),
    MAPPED_FIELD_ABSENT(Effect.NOTED),
    COLUMN_MISSING(Effect.NOTED),
    MEMORY_UNIT_DOUBTFUL(Effect.NOTED),
    HEALTH_GIVEN_TWICE(Effect.NOTED),

    DUPLICATE_IDENTICAL(Effect.READING_SET_ASIDE),
    DUPLICATE_CONFLICTING(Effect.READING_SET_ASIDE),
    SERIAL_PLACEHOLDER(Effect.READING_SET_ASIDE),
    SERIAL_SHARED(Effect.READING_SET_ASIDE),
    COLLECTED_IN_FUTURE(Effect.READING_SET_ASIDE),
    COLLECTED_AFTER_AS_OF(Effect.READING_SET_ASIDE),
    COUNTER_IMPOSSIBLE(Effect.READING_SET_ASIDE),
    READ_WRITTEN_EXCHANGED(Effect.READING_SET_ASIDE),
    READING_OUT_OF_ORDER(Effect.READING_SET_ASIDE),
    UNIT_CHANGED(Effect.READING_SET_ASIDE),
    COUNTER_OUT_OF_LINE(Effect.READING_SET_ASIDE),
    IMPLAUSIBLE_INCREASE(Effect.READING_SET_ASIDE),
    LATEST_REPORT_SET_ASIDE(Effect.NOTED),
    NO_REPORT_BELIEVED(Effect.NOTED),
    COUNTER_WENT_BACK(Effect.NOTED),
    FALL_DOUBTFUL(Effect.NOTED),
    RESET_UNCONFIRMED(Effect.NOTED),
    INCREASE_DOUBTFUL(Effect.NOTED),
    MEASURES_PARTED(Effect.NOTED),
    COLUMN_DOUBTFUL(Effect.NOTED),
    DATES_DOUBTFUL(Effect.NOTED),
    CAPACITY_DOUBTFUL(Effect.NOTED),
    COUNTER_TRUNCATED(Effect.NOTED),
    COUNTER_DOUBTFUL(Effect.NOTED),
    DRIVE_MOVED(Effect.NOTED),
    DRIVE_REPLACED(Effect.NOTED),
    UNITS_DOUBTFUL(Effect.NOTED),
    WRITTEN_CONTRADICTS_USED(Effect.NOTED),
    PERCENTAGE_USED_AT_LIMIT(Effect.NOTED),
    PERCENTAGE_USED_FELL(Effect.NOTED),
    CLOCK_DOUBTFUL(Effect.NOTED),
    SERIAL_ZEROS_LOST(Effect.NOTED),
    SERIAL_UNDER_MODELS(Effect.NOTED),
    COUNTERS_REPEATED(Effect.NOTED),

    SIDE_TABLE_ROW_INVALID(Effect.ROW_REFUSED),
    SIDE_TABLE_FIELD_INVALID(Effect.NOTED),
    SIDE_TABLE_ROW_REPEATED(Effect.ROW_REFUSED),
    PRICE_CURRENCY_DIFFERS(Effect.ROW_REFUSED),
    PRICE_ITEM_UNKNOWN(Effect.ROW_REFUSED),
    MEMORY_DIFFERS(Effect.NOTED),
    RATING_ASSUMED(Effect.NOTED);

    private final Effect effect;

    ProblemKind(Effect effect) {
        this.effect = effect;
    }

    /** Whether bytes written or percentage used, though used, are doubtful by it: then the machine's own lines say so. */
    public boolean doubtsWear() {
        return switch (this) {
            case UNITS_DOUBTFUL, WRITTEN_CONTRADICTS_USED, PERCENTAGE_USED_FELL, FALL_DOUBTFUL, RESET_UNCONFIRMED, INCREASE_DOUBTFUL, MEASURES_PARTED,
                COLUMN_DOUBTFUL, CAPACITY_DOUBTFUL -> true;
            default -> isForAnother();
        };
    }

    /** Whether it tells what followed from another rule, which set a reading aside. */
    public boolean isForAnother() {
        return this == LATEST_REPORT_SET_ASIDE || this == NO_REPORT_BELIEVED;
    }

    /** Whether it notes what another order of the readings may explain. */
    public boolean followsFromOrder() {
        return switch (this) {
            case FALL_DOUBTFUL, RESET_UNCONFIRMED, COUNTER_WENT_BACK, COLUMN_DOUBTFUL, INCREASE_DOUBTFUL, PERCENTAGE_USED_FELL, CLOCK_DOUBTFUL,
                COLLECTED_IN_FUTURE -> true;
            default -> false;
        };
    }

    /** Whether it sets a reading aside because its bytes written cannot be believed, most often by their unit. */
    public boolean disbelievesWritten() {
        return this == COUNTER_IMPOSSIBLE || this == UNIT_CHANGED || this == IMPLAUSIBLE_INCREASE || this == COUNTER_OUT_OF_LINE;
    }

    /** Whether it sets a reading aside for its write counter alone: the drive was in its machine at that time all the same. */
    public boolean leavesDriveSeen() {
        return disbelievesWritten() || this == READ_WRITTEN_EXCHANGED;
    }

    /** Fields, as the report form names them, whose unit or meaning it puts in question where histories are judged; empty for most rules. */
    public List<String> questioned() {
        String written = HealthField.DATA_UNITS_WRITTEN.dotted();
        String used = HealthField.PERCENTAGE_USED.dotted();
        String capacity = "drive.capacityBytes";
        return switch (this) {
            case IMPLAUSIBLE_INCREASE, UNITS_DOUBTFUL, LATEST_REPORT_SET_ASIDE, NO_REPORT_BELIEVED -> List.of(written, capacity);
            case COUNTER_IMPOSSIBLE, UNIT_CHANGED, COUNTER_OUT_OF_LINE, FALL_DOUBTFUL, RESET_UNCONFIRMED, INCREASE_DOUBTFUL, COLUMN_DOUBTFUL -> List.of(written);
            case WRITTEN_CONTRADICTS_USED -> List.of(written, used, capacity);
            case MEASURES_PARTED -> List.of(written, used);
            case CAPACITY_DOUBTFUL -> List.of(capacity);
            case DATES_DOUBTFUL -> List.of("collectedAt");
            case PERCENTAGE_USED_FELL -> List.of(used);
            case CLOCK_DOUBTFUL -> List.of(HealthField.POWER_ON_HOURS.dotted());
            default -> List.of();
        };
    }

    /** What it does to the data it is found in. */
    public Effect effect() {
        return effect;
    }

    /** The name in lower case with hyphens, such as {@code counter-went-back}. */
    public String id() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
