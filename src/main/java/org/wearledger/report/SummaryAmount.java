package org.wearledger.report;

/**
 * One line of money on the workbook's first sheet.
 *
 * @param label a few words
 * @param amount a number, a text or a {@link Formula}
 * @param isTheAsk whether it is the figure to approve
 */
record SummaryAmount(String label, Object amount, boolean isTheAsk) {
}
