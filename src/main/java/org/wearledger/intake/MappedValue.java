package org.wearledger.intake;

/**
 * What a cell or JSON value gave under a mapping.
 *
 * @param text as the report form writes it; {@code null} for what cannot be, which refuses the record
 * @param doubt continues {@code field is "text", }; {@code null} when there is nothing to tell
 * @param expected beside a doubt
 * @param remedy beside a doubt
 */
record MappedValue(String text, String doubt, String expected, String remedy) {
    static MappedValue of(String text) {
        return new MappedValue(text, null, null, null);
    }
}
