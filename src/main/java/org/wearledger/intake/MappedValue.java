package org.wearledger.intake;

import org.wearledger.model.ProblemKind;

/**
 * What a cell or JSON value gave under a mapping.
 *
 * @param text as the report form writes it; {@code null} for what cannot be, which refuses the record if a verdict rests on the field
 * @param kind of the doubt, in a field that a verdict rests on
 * @param doubt continues {@code field is "text", }; {@code null} when there is nothing to tell
 * @param expected beside a doubt
 * @param remedy beside a doubt
 */
record MappedValue(String text, ProblemKind kind, String doubt, String expected, String remedy) {
    static MappedValue of(String text) {
        return new MappedValue(text, null, null, null, null);
    }

    /** What cannot be. */
    static MappedValue none(String doubt, String expected, String remedy) {
        return new MappedValue(null, ProblemKind.FIELD_INVALID, doubt, expected, remedy);
    }
}
