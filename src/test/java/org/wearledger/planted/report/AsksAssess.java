package org.wearledger.planted.report;

import org.wearledger.planted.assess.Judges;

/** A report prints what it is handed and does not judge. */
final class AsksAssess {
    Judges judges;
}
