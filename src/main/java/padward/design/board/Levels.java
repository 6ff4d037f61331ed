package padward.design.board;

/**
 * What is known of the voltages at a part's pin.
 *
 * @param millivolts supply of the part, or the rail to which a resistor pulls, mV; 0 when not known
 * @param mostMillivolts greatest voltage that the pin tolerates, mV; 0 when not known
 * @param seriesOhms resistor between the pin and the board's net, ohms; 0 for none or not known
 */
public record Levels(int millivolts, int mostMillivolts, int seriesOhms) {
    /** Of which nothing is known. */
    public static final Levels UNKNOWN = new Levels(0, 0, 0);
}
