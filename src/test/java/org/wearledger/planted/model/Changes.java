package org.wearledger.planted.model;

/** Its field can be set after construction. */
enum Changes {
    ONE;

    int value;
}
