"""Spanish frames; the notation is that of frames_en."""

FRAMES = """
impaction_now : COMIDA <5 ATASCADO ! LEJOS
impaction_now : ATASCADO <4 COMIDA ! LEJOS
impaction_now : ATASCADO <4 PUESTO ! LEJOS
impaction_now : COSA <3 ATASCADO ! LEJOS
impaction_now : se|me|esta|sigue|tengo|he|estoy|quedo|queda ATASCADO ! LEJOS VOZ
impaction_now : se me? ATASCADO ! LEJOS
impaction_now : ^ ATASCADO ! LEJOS
impaction_now : COMIDA|COSA|se|me <3 quedo|quedado|queda|quedaron <3 ahi|PUESTO|ATASCADO ! LEJOS sin_voz
impaction_now : COMIDA <4 NOV <3 BAJA ! LEJOS noto ni_se_noto
impaction_now : NOV <2 me <1 BAJA <2 la|el|nada|COMIDA|LIQUIDO|ni ! LEJOS regla periodo
impaction_now : NOV me? BAJA <3 COMIDA|nada|agua ! LEJOS
impaction_now : NOV se? mueve|baja|sube|movido ! LEJOS fiebre
impaction_now : NOV quiere bajar|pasar
impaction_now : no me? pasa|baja|entra ! LEJOS fiebre SALIVA aire
impaction_now : NOV BAJA ni|y NOV? sube|baja ! LEJOS
impaction_now : NOPUEDO <1 TRAGAR ! SALIVA SOLIDO
impaction_now : NOPUEDO <1 comer|beber <1 nada|agua
impaction_now : NADA <1 pasa|baja|entra ! LEJOS
impaction_now : ni <2 agua|liquidos <3 BAJA
impaction_now : no <2 ni <2 agua
impaction_now : LIQUIDO|todo|bebo|trago|como <5 VUELVE ! acido reflujo
impaction_now : VUELVE <3 LIQUIDO|COMIDA|todo
impaction_now : bolo|tapon|bola <3 PUESTO|comida
impaction_now : tapado|bloqueado|obstruido|tapada ! LEJOS
impaction_now : impactacion|impacto_alimentario|obstruccion|bloqueo
impaction_now : sigue|siguen ahi|atascado|atorado|pegado
impaction_now : COMIDA <3 lleva|llevo|parado|parada <6 ahi|PUESTO ! LEJOS
cannot_swallow_saliva : NOPUEDO|NOV|ni <5 SALIVA
cannot_swallow_saliva : SALIVA <3 NOV|no <3 BAJA|tragar
impaction_now : sigue|siguen sin <1 bajar|pasar|moverse
impaction_now : intentando|tratando <2 baje|pase|bajar|pasar <3 COMIDA
impaction_now : que|de baje|pase la|el|este COMIDA
impaction_resolved : tuve que vomitar|devolver|escupir|sacar <3 COMIDA
impaction_resolved : COMIDA <5 vomitar|devolver|escupir <3 ahora|ya bien
cannot_swallow_saliva : baba|saliva <4 NOPUEDO <1 tragar|tragarla|pasar|pasarla
cannot_swallow_saliva : cae|chorrea|sale <2 baba|saliva
cannot_swallow_saliva : BABEA
cannot_swallow_saliva : llena|lleno|llenando|acumula|acumulando|chorrea <4 SALIVA|baba
cannot_swallow_saliva : SALIVA <3 acumula|acumulando|sale|chorrea|cae|llena
cannot_swallow_saliva : ESCUPE <3 SALIVA|baba
cannot_swallow_saliva : tengo|estoy|estar|paso <3 ESCUPE <4 VASO|todo|rato|SALIVA
bleeding : VOMITA <4 SANGRE ! NOSANGRE
bleeding : SANGRE <4 VOMITA ! NOSANGRE
bleeding : VOMITA <5 ROJO ! vino jugo
bleeding : ROJO <2 VOMITO ! vino
bleeding : POSOS
bleeding : VOMITA <5 cafe ! leche
bleeding : HECES <4 ROJO|SANGRE|ALQUITRAN|negra|negras ! NOSANGRE
bleeding : ROJO|ALQUITRAN <2 HECES
bleeding : SANGRE <5 HECES ! NOSANGRE
bleeding : ESCUPE <3 SANGRE ! NOSANGRE
bleeding : SANGRE <3 en <2 SALIVA|boca|flema ! NOSANGRE
bleeding : echo|echando|sale|saliendo|salio <2 SANGRE ! NOSANGRE
bleeding : estoy sangrando ! NOSANGRE
bleeding : hay|tengo|veo|mucha|con SANGRE ! NOSANGRE
bleeding : ^ sangre
breathing_trouble : NOPUEDO|no <1 respirar|RESPIRA ! bien_no
breathing_trouble : CUESTA <2 RESPIRA
breathing_trouble : RESPIRA <3 RESPMALA|CUESTA
breathing_trouble : CUESTA|costando <3 tomar|jalar|agarrar|meter <1 aire
breathing_trouble : falta|faltando <2 oxigeno
breathing_trouble : AHOGO
breathing_trouble : falta|faltando|faltaba <2 aire|aliento|respiracion
breathing_trouble : NOV <2 entra <2 aire
breathing_trouble : labios|cara|dedos <3 azules|morados|azul|morada|azulados
breathing_trouble : pitos|silbidos <3 pecho|respirar
allergic_reaction,breathing_trouble +airway_swelling : se me? cierra|cerrando|cerro <3 garganta|pecho
allergic_reaction,breathing_trouble +airway_swelling : garganta <4 cierra|cerrando|cerrada|cerro
allergic_reaction +airway_swelling : CARA <4 HINCHA
allergic_reaction +airway_swelling : HINCHA <4 CARA
allergic_reaction +airway_swelling : ANAFIL
allergic_reaction : RONCHAS
allergic_reaction : pica|picor|picazon <4 todo|cuerpo|piel|brazos
chest_pain : DOLOR <4 PECHO
chest_pain : PECHO <3 DOLOR
chest_pain : angina
+severe : FUERTE
+severe : duele|dolor <1 mucho
+vomiting : VOMITO ! sangre_no
+keeps_vomiting : no deja|paro|para|dejo de vomitar
+keeps_vomiting : VOMITO <3 todo_el_dia|toda_la_noche|sin_parar|veces|todo
fever : FIEBRE ! NOFIEBRE
fever : temperatura <3 alta|subida|elevada ! NOFIEBRE
herpes_sign : HERPES
herpes_sign : AMPOLLA_BOCA <4 BOCA
herpes_sign : BOCA <4 AMPOLLA_BOCA
thrush : CANDIDA
thrush : BLANCO <5 BOCA ! NOBLANCO
thrush : BOCA <5 BLANCO ! NOBLANCO
thrush : MANCHA <1 BLANCO ! NOBLANCO
thrush : PLACA <3 BOCA
thrush : SABOR
thrush : sabe <2 metal|nada|carton
thrush : COMISURA <3 GRIETA
thrush : GRIETA <3 COMISURA
thrush : boca|lengua|encias <3 roja|irritada|inflamada|quemada
odynophagia : DUELE <5 TRAGANDO
odynophagia : TRAGANDO <5 DUELE
odynophagia : garganta|esofago <3 DUELE
odynophagia : DUELE <3 garganta|esofago
odynophagia : tragara|trago|tragar <2 vidrios|vidrio|cristales|cuchillos
odynophagia : odinofagia
odynophagia : TRAGANDO <6, DUELE ! LEJOS rodilla cabeza pierna
hoarseness : RONCA
hoarseness : VOZ <3 VOZMALA
hoarseness : no me? sale|salia la? VOZ
adrenal_sign : MAREO
adrenal_sign : DEBIL
adrenal_sign : CANSADO <6, ADREXTRA_ES|MAREO|DEBIL
adrenal_sign : perdiendo|perdido|bajando|bajado <2 peso
adrenal_sign : sin|perdi|poco <2 apetito
adrenal_sign : insuficiencia|crisis suprarrenal
adrenal_sign +collapse : COLAPSO ! NOCOLAPSO
adrenal_sign +collapse : tension|presion <2 baja|bajisima|por_los_suelos
self_harm : no|sin <4 sentido <4 vivir|viviendo|vida
self_harm : no <2 quiero|puedo|aguanto <4 vivir|viviendo|vida|existir
self_harm : MATARSE
self_harm : tome|tomado|trague|bebi|tomar|tomarme <8 a_proposito|adrede|para_morir|para_matarme|queriendo
adrenal_sign +collapse : amaneci|desperte|acabe|termine|apareci|me_encontraron|estaba <3 en <2
    suelo|piso|baldosas ! jugando limpiando
adrenal_sign +collapse : no_me <1 salen|sale <2 palabras|palabra
cannot_swallow_saliva : inclinado|inclinada|agachado|agachada|apoyado|sentado|sentada|parado <3
    lavabo|cubo|fregadero|pila|palangana
    ! cepillar dientes
cannot_swallow_saliva : toalla|trapo|paño|pañuelo|servilleta <3 barbilla|menton|boca|cuello ! fiebre
breathing_trouble : se_le|se_me <1 hunde|hunden <2 costillas|pecho
odynophagia : ojos|lagrimas <3 tragar|trago|tragando|comer
self_harm : quiero|quise|pienso|ganas <2 hacer|hacerme <1 daño
self_harm : quiero|queria|pienso|pensando|ganas <3 morir|morirme|matarme|suicidarme|desaparecer
pregnancy : EMBARAZO
pregnancy : semanas de embarazo
missed_doses : OLVIDO <3 DOSISOBJ ! NOOLVIDO
missed_doses : se me olvido $ ! NOOLVIDO
missed_doses : olvide $
missed_doses : NOTOME
missed_doses : ACABO ! BOCA llagas herpes calenturas check
missed_doses : DORMIDO
missed_doses : solo <2 tome|tomado <3 dias|dosis|veces
wants_stop +stopped : deje|he_dejado <1 de <1 tomar|tomarla|tomarlo
wants_stop +stopped : ya no la|lo tomo
+rinse_skipped : no me? enjuague
wants_stop : DEJAR
wants_stop : no la|lo|me voy|pienso <2 tomar|seguir
wants_stop : no <2 voy a tomar
wants_stop : quiero|quisiera|puedo|pienso <2 dejar|parar|suspender|abandonar ! fumar
new_medicine : FARMACO
new_medicine : RECETO <4 FARMACO|MEDNUEVO
new_medicine : MEDNUEVO
better : MEJOR <3 MEJORCON ! PEOR
better : MEJORCON <3 MEJOR ! PEOR
better : puedo comer <2 todo|normal
better : TRAGAR|trago|como sin problema|problemas|dificultad
better : ya como de todo|bien|normal
worse_dysphagia : PEOR <3 DISF
worse_dysphagia : DISF <3 PEOR
worse_dysphagia : DISFAGIA
worse_dysphagia +marked_dysphagia : SOLOLIQ
worse_dysphagia +marked_dysphagia : mucho|cada_vez <2 peor ! VOZ
+child_took_it : NINO <4 TOMO <5 MEDMIA
+taken_twice : tome|tomado|tomo|di|dado|use <4 DOBLE ! DIARIO
+taken_twice : tome|tomado|di <2 otra vez|dosis ! olvide olvido
+taken_twice : DOBLE ! DIARIO olvide salte
+exposure : VIRUELA
+surgery : CIRUGIA
+sore_throat : dolor de garganta
+tired : CANSADO
+heartburn : acidez|reflujo|agruras
"""

GUARDS = """
SOLIDO = solidos solida
 =
VOZ = voz
PLACA = placa placas
"""
