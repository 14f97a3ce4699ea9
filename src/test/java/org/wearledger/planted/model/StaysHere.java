package org.wearledger.planted.model;

/** A record that is not Serializable. */
public record StaysHere(int value) {
}
