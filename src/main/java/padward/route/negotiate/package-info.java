/** Many nets routed at once by negotiated congestion. */
package padward.route.negotiate;
