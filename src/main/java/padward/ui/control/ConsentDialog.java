package padward.ui.control;

import javafx.scene.Node;
import javafx.scene.control.Alert;
import javafx.scene.control.ButtonBar;
import javafx.scene.control.ButtonType;
import padward.ui.model.WindowModel;

/** Asks before something that cannot be brought back is dropped. Returns at once. */
public final class ConsentDialog implements WindowModel.Consent {
    private final Node owner;

    /**
     * @param owner a node of the window that it belongs to
     */
    public ConsentDialog(Node owner) {
        this.owner = owner;
    }

    @Override
    public void ask(String question, String yes, Runnable then) {
        ButtonType accept = new ButtonType(yes, ButtonBar.ButtonData.OK_DONE);
        ButtonType stay = new ButtonType("Cancel", ButtonBar.ButtonData.CANCEL_CLOSE);
        Alert dialog = new Alert(Alert.AlertType.CONFIRMATION, question, accept, stay);
        dialog.setHeaderText(null);
        dialog.setTitle("Padward");
        if (owner.getScene() != null) {
            dialog.initOwner(owner.getScene().getWindow());
            Themes.dress(dialog.getDialogPane(), owner.getScene().getRoot());
        }
        dialog.getDialogPane().setId("consent");
        dialog.resultProperty()
                .addListener(
                        (p, old, now) -> {
                            if (now == accept) {
                                then.run();
                            }
                        });
        dialog.show();
    }
}
