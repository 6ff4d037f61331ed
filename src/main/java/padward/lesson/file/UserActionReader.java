package padward.lesson.file;

import java.util.Optional;
import padward.base.BadInput;
import padward.fabric.Corner;
import padward.format.json.JsonIn;
import padward.format.json.Members;
import padward.format.json.Shape;
import padward.format.source.Text;
import padward.lesson.UserAction;

/** Reads the actions that solve a step of a lesson. */
final class UserActionReader {
    private static final Shape ACTION = Shape.of("do!", "net", "pad", "corner", "vertex", "option");
    private static final int MAX_OPTIONS = 64;

    private UserActionReader() {}

    static UserAction read(JsonIn in) throws BadInput {
        String word = "";
        String net = "";
        String pad = "";
        String vertex = "";
        Corner corner = Corner.SLOW;
        int option = 0;
        Members member = in.object(ACTION);
        while (member.next()) {
            switch (member.name()) {
                case "do" -> word = in.name();
                case "net" -> net = in.name();
                case "pad" -> pad = in.name();
                case "corner" -> corner = in.oneOf(Corner.values(), Corner::label);
                case "vertex" -> vertex = in.name();
                default -> option = in.integer(1, MAX_OPTIONS);
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
            case "choose-option" -> {
                need(in, member, "option");
                yield new UserAction.ChooseOption(option - 1);
            }
            default -> plain(in, word);
        };
    }

    private static UserAction plain(JsonIn in, String word) throws BadInput {
        Optional<UserAction> action = UserAction.plain(word);
        if (action.isEmpty()) {
            throw in.fault(
                    "one of ask, choose-hop, choose-option, try, keep, drop, undo",
                    Text.quote(word));
        }
        return action.get();
    }

    private static void need(JsonIn in, Members member, String name) throws BadInput {
        if (!member.has(name)) {
            throw in.fault("member " + Text.quote(name), "none");
        }
    }
}
