"""The local web app: a way in that holds no rule of the trade. `main.make_app` is its door."""
