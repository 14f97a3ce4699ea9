package org.wearledger.report;

/** A text above figures, on their side. */
record Heading(String text) {
}
