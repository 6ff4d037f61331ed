package padward.lesson.file;

import java.util.Optional;
import padward.base.BadInput;
import padward.fabric.Corner;
import padward.format.json.JsonIn;
import padward.format.json.Members;
import padward.format.json.Shape;
import padward.format.source.Text;
import padward.lesson.UserAction;

/** Reads what the solution of a lesson's step does. */
final class UserActionReader {
    private static final Shape DEED = Shape.of("do!", "net", "pad", "corner", "vertex", "option");
    private static final int MOST_CLEARANCES = 64;

    private UserActionReader() {}

    static UserAction read(JsonIn in) throws BadInput {
        String word = "";
        String net = "";
        String pad = "";
        String vertex = "";
        Corner corner = Corner.SLOW;
        int option = 0;
        Members member = in.object(DEED);
        while (member.next()) {
            switch (member.name()) {
                case "do" -> word = in.name();
                case "net" -> net = in.name();
                case "pad" -> pad = in.name();
                case "corner" -> corner = in.oneOf(Corner.values(), Corner::label);
                case "vertex" -> vertex = in.name();
                default -> option = in.integer(1, MOST_CLEARANCES);
            }
        }
        return switch (word) {
            case "ask" -> {
                need(in, member, "net");
                need(in, member, "pad");
                yield new UserAction.Ask(net, pad, corner);
            }
            case "choose-hop" -> {
                need(in, member, "vertex");
                yield new UserAction.ChooseHop(vertex);
            }
            case "look-at-option" -> {
                need(in, member, "option");
                yield new UserAction.LookAtOption(option - 1);
            }
            default -> plain(in, word);
        };
    }

    private static UserAction plain(JsonIn in, String word) throws BadInput {
        Optional<UserAction> deed = UserAction.plain(word);
        if (deed.isEmpty()) {
            throw in.fault(
                    "one of ask, choose-hop, look-at-clearance, try, keep, drop, undo",
                    Text.quote(word));
        }
        return deed.get();
    }

    private static void need(JsonIn in, Members member, String name) throws BadInput {
        if (!member.has(name)) {
            throw in.fault("member " + Text.quote(name), "none");
        }
    }
}
