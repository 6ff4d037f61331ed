package padward.format.fabric;

import java.util.List;
import padward.base.BadInput;
import padward.fabric.Delay;
import padward.fabric.PinDirection;
import padward.fabric.SitePin;
import padward.format.json.EnumWords;
import padward.format.json.JsonIn;
import padward.format.json.Members;
import padward.format.json.Shape;

/**
 * A site as an explicit fabric's file lists it.
 *
 * @param number its place in the list, for messages
 * @param name full name
 * @param tile number of its tile
 * @param kind kind of site
 * @param accepts kinds of cell that it accepts
 * @param pins its pins
 * @param through its pass-throughs
 */
record ListedSite(
        int number,
        String name,
        int tile,
        String kind,
        List<String> accepts,
        List<SitePin> pins,
        List<Through> through) {
    private static final Shape SITE =
            Shape.of("name!", "at!", "kind!", "accepts", "pins!", "through");
    private static final Shape PIN = Shape.of("name!", "direction!");
    private static final Shape PASS_THROUGH = Shape.of("from!", "to!", "delay_ps!");

    /** A pass-through of the site, between pins by name. */
    record Through(String from, String to, Delay delay) {}

    static ListedSite read(JsonIn in, int number, InfoParts info) throws BadInput {
        String name = "";
        int tile = 0;
        String kind = "";
        List<String> accepts = List.of();
        List<SitePin> pins = List.of();
        List<Through> through = List.of();
        Members member = in.object(SITE);
        while (member.next()) {
            switch (member.name()) {
                case "name" -> name = in.name();
                case "at" -> tile = info.readTile(in);
                case "kind" -> kind = in.word();
                case "accepts" -> accepts = info.readAccepts(in);
                case "pins" -> pins = in.list(ListedSite::readPin);
                default -> through = in.list(ListedSite::readThrough);
            }
        }
        return new ListedSite(number, name, tile, kind, accepts, pins, through);
    }

    private static SitePin readPin(JsonIn in) throws BadInput {
        String name = "";
        PinDirection direction = PinDirection.IN;
        Members member = in.object(PIN);
        while (member.next()) {
            switch (member.name()) {
                case "name" -> name = readWord(in);
                default -> direction = in.oneOf(PinDirection.values(), EnumWords::of);
            }
        }
        return new SitePin(name, direction);
    }

    private static String readWord(JsonIn in) throws BadInput {
        String word = in.word();
        if (word.isEmpty()) {
            throw in.fault("a name", "an empty text");
        }
        return word;
    }

    private static Through readThrough(JsonIn in) throws BadInput {
        String from = "";
        String to = "";
        Delay delay = Delay.ZERO;
        Members member = in.object(PASS_THROUGH);
        while (member.next()) {
            switch (member.name()) {
                case "from" -> from = in.word();
                case "to" -> to = in.word();
                default -> delay = in.delay();
            }
        }
        return new Through(from, to, delay);
    }
}
