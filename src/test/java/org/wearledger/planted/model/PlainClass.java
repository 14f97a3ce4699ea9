package org.wearledger.planted.model;

/** Neither record nor enum nor interface. */
final class PlainClass {
}
